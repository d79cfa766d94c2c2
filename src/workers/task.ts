import type { Session } from "../model.js";
import type { Labour } from "../pipeline.js";

/** What a thread is told when it begins. */
export interface ThreadStart {
  readonly session: Session;
  readonly folder: string;
}

/** One heavy step, by its name and its arguments. */
export interface Task {
  readonly id: number;
  readonly step: keyof Labour;
  readonly arguments: readonly unknown[];
}

/** What came of it. A failure is a fault of the program: those of the user are among a step's own results. */
export type Outcome =
  | { readonly id: number; readonly result: unknown }
  | { readonly id: number; readonly failure: { readonly message: string; readonly stack: string | undefined } };
