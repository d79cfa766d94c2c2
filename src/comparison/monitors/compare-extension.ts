import type { Results } from "../../model.js";
import type { Extension } from "../extension.js";

export type ExtensionGap = Results["comparisons"][number]["extension"];

/**
 * The -6 dB ends of two monitors, and how many octaves the first reaches below the second.
 *
 * @returns null where an end was not found; an extension's own flags say why
 * @example compareExtension({ minus6Hz: 30 }, { minus6Hz: 60 }) // gapOctaves 1
 */
export function compareExtension(
  a: Pick<Extension, "minus6Hz"> | null,
  b: Pick<Extension, "minus6Hz"> | null,
): ExtensionGap {
  const aHz = a?.minus6Hz ?? null;
  const bHz = b?.minus6Hz ?? null;
  return { aHz, bHz, gapOctaves: aHz === null || bHz === null ? null : Math.log2(bHz / aHz) };
}
