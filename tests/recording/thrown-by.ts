import { InputError } from "../../src/errors.js";

/** The input error that a call ends in; any other end fails the test. */
export function inputErrorOf(call: () => unknown): InputError {
  try {
    call();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("expected an InputError, but the call returned");
}
