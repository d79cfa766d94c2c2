import type { Belongs } from "./divide-unknown.js";
import type { NamePart } from "./parts-of-name.js";
import type { ReadName } from "./place-of-name.js";

/** A word of a name and what it was taken for. */
export interface Evidence {
  readonly word: string;
  readonly means: string;
}

/** What led to a guess: the words of a name in their order, without those that say nothing. */
export function evidenceOf(
  parts: readonly NamePart[],
  belongs: ReadonlyMap<string, Belongs>,
  { channel, contradiction }: Pick<ReadName, "channel" | "contradiction">,
): Evidence[] {
  // The first "left" is the side where nothing else is.
  let isSideTold = channel === null || parts.some(({ says }) => says.kind === "letter");
  return parts.flatMap(({ text: word, says }): Evidence[] => {
    switch (says.kind) {
      case "role":
        return [{ word, means: says.role }];
      case "monitor":
        return [{ word, means: "monitor" }];
      case "unknown":
        return [
          {
            word,
            means:
              belongs.get(word.toLowerCase()) === "everything" ? "in every name" : belongs.get(word.toLowerCase())!,
          },
        ];
      case "letter":
        return [{ word, means: contradiction === null ? "side" : "contradicts the content" }];
      case "side": {
        const means = contradiction !== null ? "contradicts the content" : isSideTold ? "place" : "side";
        isSideTold = true;
        return [{ word, means }];
      }
      case "both":
        return [{ word, means: "both sides" }];
      case "place":
        return [{ word, means: says.place.kind === "mix" ? "mix position" : "place" }];
      case "take":
        return [{ word, means: "take" }];
      default:
        return [];
    }
  });
}
