import { type Meaning, meaningOf } from "./vocabulary.js";
import { type Word, wordsOf } from "./words-of-name.js";

/** A word of a name with what it means by itself. */
export interface KnownWord extends Word {
  readonly meaning: Meaning | null;
}

/** The words of a name, those put together that are one: "head phones", "near field", a model's "QX7". */
export function knownWordsOf(path: string): KnownWord[] {
  const words: KnownWord[] = [];
  for (const word of wordsOf(path)) {
    const known = { ...word, meaning: meaningOf(word.key) };
    const before = words.at(-1);
    const joined = before && joinedWord(before, known);
    if (joined) words[words.length - 1] = joined;
    else words.push(known);
  }
  return words;
}

function joinedWord(before: KnownWord, word: KnownWord): KnownWord | null {
  const meaning = meaningOf(before.key + word.key);
  const isModel = before.meaning === null && before.text.length > 1 && word.number !== null && word.isGlued;
  if (meaning?.kind !== "role" && !isModel) return null;
  const between = word.isGlued ? "" : " ";
  return { ...before, text: before.text + between + word.text, key: before.key + word.key, meaning };
}
