/** One word of a file's name, as it stands there. */
export interface Word {
  readonly text: string;
  /** Its letters without case and accents: what it is looked up by. */
  readonly key: string;
  /** Null if it is no number. */
  readonly number: number | null;
  /** Nothing stands between it and the word before. */
  readonly isGlued: boolean;
}

/** Capitals before a capitalised word, a word, capitals alone, letters of other scripts, figures. */
const WORD = /\p{Lu}+(?=\p{Lu}\p{Ll})|\p{Lu}?\p{Ll}+|\p{Lu}+|\p{Lo}+|\d+/gu;

/**
 * Takes a path apart into words: at every sign that is no letter or figure, between letters and figures, and before a capital.
 *
 * @param path - with "/" between folders; their names say as much as the file's
 * @example wordsOf("near_R-pos2.wav").map(({ text }) => text) // ["near", "R", "pos", "2"]
 */
export function wordsOf(path: string): Word[] {
  const stem = path.replace(/\.[^./]*$/, "").normalize("NFC");
  const words: Word[] = [];
  let end = -1;
  for (const match of stem.matchAll(WORD)) {
    const [text] = match;
    const number = /^\d+$/.test(text) ? Number(text) : null;
    words.push({ text, key: plain(text).toLowerCase(), number, isGlued: match.index === end });
    end = match.index + text.length;
  }
  return words;
}

/** Letters without their accents. */
export function plain(text: string): string {
  return text.normalize("NFKD").replace(/\p{M}/gu, "");
}
