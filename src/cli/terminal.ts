import pc from "picocolors";

import { InputError } from "../errors.js";

export interface TerminalOptions {
  readonly quiet: boolean;
  readonly json: boolean;
  readonly debug: boolean;
}

/** Where a command speaks: results to standard output, everything about the work to standard error. */
export interface Terminal {
  readonly options: TerminalOptions;
  /** Text for people; silent when quiet, and when a program reads the result. */
  say(text: string): void;
  /** A remark that must not end up in the result. */
  remark(text: string): void;
  /** The result for programs, when it was asked for. */
  result(value: unknown): void;
  fail(error: unknown): void;
  readonly strong: (text: string) => string;
  readonly faint: (text: string) => string;
}

/** The only door to the colours of a terminal. */
export function openTerminal(options: TerminalOptions): Terminal {
  const out = pc.createColors(coloured(process.stdout));
  const err = pc.createColors(coloured(process.stderr));
  return {
    options,
    say(text) {
      if (!options.quiet && !options.json) process.stdout.write(`${text}\n`);
    },
    remark(text) {
      if (!options.quiet) process.stderr.write(`${text}\n`);
    },
    result(value) {
      if (options.json) process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
    },
    fail(error) {
      const [head, ...rest] = paragraphOf(error).split("\n");
      process.stderr.write([err.red(head ?? ""), ...rest].join("\n") + "\n");
      if (options.debug && error instanceof Error) process.stderr.write(`${err.dim(error.stack ?? "")}\n`);
    },
    strong: out.bold,
    faint: out.dim,
  };
}

function coloured(stream: { readonly isTTY?: boolean }): boolean {
  const { NO_COLOR, TERM } = process.env;
  return stream.isTTY === true && (NO_COLOR === undefined || NO_COLOR === "") && TERM !== "dumb";
}

function paragraphOf(error: unknown): string {
  if (error instanceof InputError) return error.toParagraph();
  const message = error instanceof Error ? error.message : String(error);
  return new InputError(`Carrywell itself failed: ${message}.`, {
    where: "inside the program, not in your files",
    remedy: "run the command again with --debug and report what it prints",
  }).toParagraph();
}
