/** What a finding says and what to do about it. */
export interface Wording {
  readonly message: string;
  readonly remedy: string | null;
}

/** What findings say, by their code. */
export type Wordings = Record<string, (facts: never) => Wording>;
