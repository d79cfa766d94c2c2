import type { Monitor, RollOff, Shape } from "../monitor.js";

type Polynomial = readonly [number, number, number];

/** `above(s) / below(s)`, each `c0 + c1 s + c2 s^2`, with `s = i f / cornerHz`. */
interface Section {
  readonly cornerHz: number;
  readonly above: Polynomial;
  readonly below: Polynomial;
}

/**
 * Takes a monitor apart into filters of first and second order.
 *
 * @param monitor - its parameters; gain, delay, polarity and distortion are not filters
 * @returns the filters, whose product is the monitor's response
 * @throws {RangeError} if an order is not a whole number from 1 up
 * @remarks Source: the sum of a fourth-order Linkwitz-Riley pair, `(1 - sqrt(2) s + s^2) / (1 + sqrt(2) s + s^2)`:
 * S. Linkwitz, J. Audio Eng. Soc. 24 (1976). From memory; a test adds up the pair.
 */
export function monitorSections(monitor: Monitor): Section[] {
  const sections: Section[] = [];
  if (monitor.lowRollOff) sections.push(...rollOff(monitor.lowRollOff, "low"));
  if (monitor.highRollOff) sections.push(...rollOff(monitor.highRollOff, "high"));
  for (const cornerHz of monitor.crossoversHz ?? []) {
    sections.push({ cornerHz, above: [1, -Math.SQRT2, 1], below: [1, Math.SQRT2, 1] });
  }
  return [...sections, ...(monitor.shapes ?? []).map(shapeSection)];
}

/** Butterworth's pairs of poles have the qualities 1 / (2 sin((2k + 1) pi / 2n)), the least damped first. */
function rollOff({ frequencyHz: cornerHz, order, quality }: RollOff, end: "low" | "high"): Section[] {
  if (!Number.isInteger(order) || order < 1) throw new RangeError(`order ${order} must be a whole number from 1 up`);
  const sections: Section[] = [];
  for (let pair = 0; pair < Math.floor(order / 2); pair++) {
    const butterworth = 1 / (2 * Math.sin((Math.PI * (2 * pair + 1)) / (2 * order)));
    const damping = 1 / (pair === 0 ? (quality ?? butterworth) : butterworth);
    sections.push({ cornerHz, above: end === "low" ? [0, 0, 1] : [1, 0, 0], below: [1, damping, 1] });
  }
  if (order % 2 === 1) sections.push({ cornerHz, above: end === "low" ? [0, 1, 0] : [1, 0, 0], below: [1, 1, 0] });
  return sections;
}

function shapeSection({ kind, frequencyHz: cornerHz, gainDb, quality = Math.SQRT1_2, order = 1 }: Shape): Section {
  const half = 10 ** (gainDb / 40);
  if (order === 2 && kind !== "peak") {
    // |H|^2 = (half^2 + w^4) / (1 / half^2 + w^4) for the low shelf, and the same with w and 1 / w exchanged.
    const [above, below]: [Polynomial, Polynomial] = [
      [half, Math.sqrt(2 * half), 1],
      [1 / half, Math.sqrt(2 / half), 1],
    ];
    if (kind === "lowShelf") return { cornerHz, above, below };
    return { cornerHz, above: [1, above[1], half], below: [1, below[1], 1 / half] };
  }
  if (kind === "lowShelf") return { cornerHz, above: [half, 1, 0], below: [1 / half, 1, 0] };
  if (kind === "highShelf") return { cornerHz, above: [1, half, 0], below: [1, 1 / half, 0] };
  return { cornerHz, above: [1, half / quality, 1], below: [1, 1 / (half * quality), 1] };
}
