import type { PredictedMode } from "../model.js";

/** Length, width and height, m. */
export type RoomSize = readonly [lengthM: number, widthM: number, heightM: number];

const kinds = ["axial", "tangential", "oblique"] as const;

/**
 * Lists the modes of a rigid rectangular room.
 *
 * f = c / 2 sqrt((p / L)² + (q / W)² + (r / H)²), with p, q, r whole numbers that are not all 0: axial between two walls,
 * tangential around four, oblique around all six. Real walls give way and hold niches; real modes lie some percent off.
 *
 * @param sizeM - each above 0
 * @param soundSpeedMPerS - above 0
 * @param untilHz - highest frequency
 * @returns by rising frequency
 * @throws {RangeError} if a dimension or the speed is not above 0
 * @remarks Source: Lord Rayleigh, The Theory of Sound, vol. 2 (1878), 267, from memory; worked table in G. Ballou (ed.), Handbook
 *   for Sound Engineers, table 6-4.
 * @example predictModes([7, 5, 3], 343, 25)[0] // axial, [1, 0, 0], 24.5 Hz
 */
export function predictModes(sizeM: RoomSize, soundSpeedMPerS: number, untilHz: number): PredictedMode[] {
  if (![...sizeM, soundSpeedMPerS].every((value) => value > 0)) {
    throw new RangeError(`dimensions ${sizeM.join(", ")} and speed ${soundSpeedMPerS} must be above 0`);
  }
  const highest = sizeM.map((metres) => Math.floor((2 * metres * untilHz) / soundSpeedMPerS));
  const found: Omit<PredictedMode, "spacingHz">[] = [];
  for (let p = 0; p <= highest[0]!; p++) {
    for (let q = 0; q <= highest[1]!; q++) {
      for (let r = 0; r <= highest[2]!; r++) {
        const order: [number, number, number] = [p, q, r];
        const kind = kinds[order.filter((halfWaves) => halfWaves > 0).length - 1];
        const frequencyHz = (soundSpeedMPerS / 2) * Math.hypot(p / sizeM[0], q / sizeM[1], r / sizeM[2]);
        if (kind && frequencyHz <= untilHz) found.push({ order, kind, frequencyHz });
      }
    }
  }
  found.sort((a, b) => a.frequencyHz - b.frequencyHz || byOrder(a.order, b.order));
  return found.map((mode, k) => {
    const next = found[k + 1];
    return { ...mode, spacingHz: next ? next.frequencyHz - mode.frequencyHz : null };
  });
}

/** Rounding must not decide which of two equal modes comes first. */
function byOrder(a: readonly number[], b: readonly number[]): number {
  return b[0]! - a[0]! || b[1]! - a[1]! || b[2]! - a[2]!;
}
