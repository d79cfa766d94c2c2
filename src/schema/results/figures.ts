import { z } from "../zod.js";

/** Null where it could not be known. */
export const value = z.number().nullable();

export const curve = z.array(value);

export const frequencies = z.array(z.number());

export const range = z.tuple([z.number(), z.number()]);
