import pc from "picocolors";

import { InputError } from "../errors.js";
import { printableText } from "../words/printable.js";

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
  const isStyled = { out: coloured(process.stdout), err: coloured(process.stderr) };
  const out = pc.createColors(isStyled.out);
  const err = pc.createColors(isStyled.err);
  const tell = (text: string): void => {
    process.stderr.write(printableText(`${text}\n`, isStyled.err));
  };
  return {
    options,
    say(text) {
      if (!options.quiet && !options.json) process.stdout.write(printableText(`${text}\n`, isStyled.out));
    },
    remark(text) {
      if (!options.quiet) tell(text);
    },
    result(value) {
      if (options.json) process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
    },
    fail(error) {
      const [head, ...rest] = paragraphOf(error).split("\n");
      tell([err.red(head ?? ""), ...rest].join("\n"));
      if (options.debug && error instanceof Error) tell(err.dim(error.stack ?? ""));
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
