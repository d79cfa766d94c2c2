/** Something the user can mend: what is wrong, where it is, and what to do about it. */
export class InputError extends Error {
  override readonly name = "InputError";
  /** File, field, sample or second. */
  readonly where: string;
  readonly remedy: string;
  /** Of the finding that tells it, where a recording is concerned and there is a more telling one than "unreadable". */
  readonly code: string | null;

  constructor(what: string, details: { where: string; remedy: string; code?: string }) {
    super(what);
    this.where = details.where;
    this.remedy = details.remedy;
    this.code = details.code ?? null;
  }

  /** The error as one paragraph for a terminal, without a stack trace. */
  toParagraph(): string {
    return `${this.message}\n  where: ${this.where}\n  try:   ${this.remedy}`;
  }
}
