/** Something the user can mend: what is wrong, where it is, and what to do about it. */
export class InputError extends Error {
  override readonly name = "InputError";
  /** File, field, sample or second. */
  readonly where: string;
  readonly remedy: string;

  constructor(what: string, details: { where: string; remedy: string }) {
    super(what);
    this.where = details.where;
    this.remedy = details.remedy;
  }

  /** The error as one paragraph for a terminal, without a stack trace. */
  toParagraph(): string {
    return `${this.message}\n  where: ${this.where}\n  try:   ${this.remedy}`;
  }
}
