import type { Block } from "./section.js";

export interface Chapter {
  readonly id: string;
  readonly heading: string;
  readonly blocks: readonly Block[];
}

/** A part of a page with its chapters, as the template shows it. */
export interface Part {
  readonly id: string;
  readonly heading: string;
  readonly chapters: readonly Chapter[];
}
