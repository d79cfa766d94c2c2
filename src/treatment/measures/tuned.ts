import type { Measure } from "../../model.js";
import { holedPlateShare, membraneMass } from "../../standards/absorbers/tuned-absorber.js";

/** Boxes that fit into a room, and a plate that can be drilled: examples, choices of ours. */
const CAVITIES_M = [0.1, 0.2, 0.3] as const;
const PLATE = { plateM: 0.018, holeM: 0.01 } as const;

/** What a box tuned to a frequency needs: the mass of a sheet, or the open share of a plate. */
export function tuned(frequencyHz: number): Measure {
  return {
    kind: "tuned",
    frequencyHz,
    membranes: CAVITIES_M.map((cavityM) => ({ cavityM, massKgPerM2: membraneMass(frequencyHz, cavityM) })),
    holedPlates: CAVITIES_M.map((cavityM) => ({
      ...{ cavityM, ...PLATE },
      openShare: holedPlateShare(frequencyHz, { cavityM, ...PLATE }),
    })),
  };
}
