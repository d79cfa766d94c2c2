import { held } from "../../words/numbers.js";
import type { Block } from "./section.js";

/** The block with every number kept on one line with its unit, wherever a line may break. */
export function holdUnits(block: Block): Block {
  switch (block.kind) {
    case "heading":
      return block;
    case "prose":
      return { ...block, text: held(block.text) };
    case "list":
      return { ...block, items: block.items.map(held) };
    case "figure":
    case "strips":
    case "bars":
      return { ...block, see: held(block.see), caption: held(block.caption) };
    case "table":
      return { ...block, notes: block.notes.map(held) };
  }
}
