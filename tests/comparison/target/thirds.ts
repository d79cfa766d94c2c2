import type { BandCurve } from "../../../src/comparison/band-curve.js";
import { THIRD_OCTAVES } from "../../../src/standards/iec61260.js";

export type Thirds = Pick<BandCurve, "nominalHz" | "levelDb" | "uncertaintyDb">;

/** A third-octave curve from 25 Hz to 20 kHz by nominal frequency, known to 0.1 dB. */
export function thirds(level: (nominalHz: number) => number | null, uncertaintyDb = 0.1): Thirds {
  const nominalHz = THIRD_OCTAVES.map((band) => band.nominalHz);
  return { nominalHz, levelDb: nominalHz.map(level), uncertaintyDb: nominalHz.map(() => uncertaintyDb) };
}
