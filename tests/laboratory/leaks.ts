import type { Finding, Results } from "../../src/model.js";
import { amount } from "../../src/standards/just-noticeable.js";
import { expandedUncertainty } from "../../src/standards/real-difference.js";
import { significant } from "../../src/words/numbers.js";
import { type Figure, figuresOf, type Kind } from "./figures.js";

/** Flags by which a figure itself says that it is not the room's, with the kinds of figures that they speak of. */
const WITHDRAWN: Readonly<Record<string, readonly Kind[]>> = {
  "direct-dominated": ["decay"],
  "filter-limited": ["decay", "late"],
};

/**
 * A warning excuses a wrong figure where it says in words that such figures are not to be trusted: in the range of frequencies that it
 * names, where it names one.
 */
interface Disclaimer {
  readonly words: RegExp;
  readonly kinds: readonly Kind[];
}

const LEVELS: readonly Kind[] = ["level", "end", "side-level"];
const DISCLAIMERS: Readonly<Record<string, readonly Disclaimer[]>> = {
  distorted: [{ words: /levels are squeezed with it and not to be trusted/, kinds: LEVELS }],
  "calibration-suspect": [
    { words: /[Ll]evels .*are not to be trusted/, kinds: LEVELS },
    { words: /decays from .* are not to be trusted/, kinds: ["decay", "late", "clarity"] },
  ],
};

/**
 * Holds every figure of a faulty session against that of the clean one.
 *
 * A figure may be off by the larger of U and of what is just noticed. One that is missing is not wrong, nor is one that says
 * against itself what the clean one does not say, or that a warning withdraws.
 *
 * @param turnsGain - levels are compared less the middle of their differences
 * @returns in words, one for each figure that is wrong without saying so
 */
export function leaksOf(clean: Results, faulty: Results, turnsGain = false): string[] {
  const right = figuresOf(clean);
  const warnings = [...faulty.findings, ...faulty.measurements.flatMap(({ quality }) => quality.findings)].filter(
    ({ severity }) => severity === "warning",
  );
  const pairs = [...figuresOf(faulty).values()].flatMap((figure) => {
    const own = right.get(figure.name);
    return own ? [{ figure, own }] : [];
  });
  const gainDb = turnsGain ? middleOf(pairs.filter(({ figure }) => figure.kind === "level")) : 0;
  return pairs.flatMap(({ figure, own }) => {
    const off = figure.value - own.value - (figure.kind === "level" ? gainDb : 0);
    const justNoticed = amount(figure.justNoticeable, own.value, figure.value);
    // Where no uncertainty is stated, none excuses.
    const allowed = Math.max(justNoticed, expandedUncertainty([own.uncertainty, figure.uncertainty]) ?? 0);
    if (Math.abs(off) <= allowed || isWithdrawn(figure, own, warnings)) return [];
    const [was, is, most] = [own.value, figure.value, allowed].map((value) => significant(value, 3));
    return [`${figure.name} is ${is} and was ${was}, more than ${most} apart`];
  });
}

function isWithdrawn(figure: Figure, own: Figure, warnings: readonly Finding[]): boolean {
  const isFlagged = figure.flags.some(
    (flag) => WITHDRAWN[flag]?.includes(figure.kind) ?? (figure.kind !== "level" && !own.flags.includes(flag)),
  );
  return isFlagged || warnings.some((finding) => disclaims(finding, figure));
}

function disclaims({ code, message, rangeHz }: Finding, figure: Figure): boolean {
  return (DISCLAIMERS[code] ?? []).some(({ words, kinds }) => {
    if (!words.test(message) || !kinds.includes(figure.kind)) return false;
    if (rangeHz === null || figure.rangeHz === null) return true;
    return figure.rangeHz[1] > rangeHz[0] && figure.rangeHz[0] < rangeHz[1];
  });
}

function middleOf(pairs: readonly { readonly figure: Figure; readonly own: Figure }[]): number {
  const differences = pairs.map(({ figure, own }) => figure.value - own.value).sort((a, b) => a - b);
  return differences[differences.length >> 1] ?? 0;
}
