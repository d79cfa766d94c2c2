import type { Finding, Measure, Results } from "../model.js";
import { AIR } from "../standards/absorbers/porous-material.js";
import { delay, trim } from "./measures/align.js";
import { area } from "./measures/area.js";
import { diffusion } from "./measures/diffusion.js";
import { fillDip, lowerPeak } from "./measures/equaliser.js";
import { moveListener, moveLoudspeaker } from "./measures/move.js";
import { isTooDeep, porous } from "./measures/porous.js";
import { againstReflection, layersOn } from "./measures/reflection.js";
import { tuned } from "./measures/tuned.js";
import type { ProblemCode } from "./problem.js";

/** Up to here single modes make peaks; above, what makes one is not known from its level. */
const MODES_UNTIL_HZ = 300;
/** Flutter is heard from here up. */
const FLUTTER_FROM_HZ = 800;
/** The mean decay is taken from here up. */
const WHOLE_FROM_HZ = 200;

/** Which kinds of measure work against a trouble, the first one first. */
export function measuresFor(finding: Finding, results: Results): Measure[] {
  const hz = finding.bandHz;
  switch (finding.code as ProblemCode) {
    case "mode-rings":
    case "rings":
      return hz === null ? [] : [...absorb(hz), ...moveListener(hz, results), diffusion(hz, null)];
    case "peak":
      return [...(hz !== null && hz <= MODES_UNTIL_HZ ? absorb(hz) : []), lowerPeak()];
    case "boundary-dip": {
      const moves = moveLoudspeaker(finding, results);
      // Each side of a pair has its own wall.
      const by = [...new Set(moves.map(({ surface }) => surface))];
      return [...moves, ...(hz === null ? [] : layersOn(by, hz, results)), ...dip(finding, true)];
    }
    case "dip":
      return [...elsewhere(hz), ...dip(finding, null)];
    case "phantom-dip":
      return [...elsewhere(hz), ...dip(finding, true)];
    case "early-reflection":
    case "one-sided-reflection":
      return againstReflection(finding, results);
    case "flutter":
      return [porous(FLUTTER_FROM_HZ), diffusion(FLUTTER_FROM_HZ, null)];
    case "double-slope":
      return [{ kind: "close-opening" }];
    case "too-live":
      return [...area(finding, results), porous(WHOLE_FROM_HZ)];
    case "left-right-level":
      return trim(finding);
    case "left-right-arrival":
      return delay(finding);
    case "left-right-bands":
      return [{ kind: "find-difference" }];
  }
}

/** A layer where one is deep enough, else a box tuned to the frequency. */
function absorb(frequencyHz: number): Measure[] {
  const layer = porous(frequencyHz);
  return isTooDeep(layer) ? [tuned(frequencyHz), layer] : [layer];
}

function elsewhere(frequencyHz: number | null): Measure[] {
  if (frequencyHz === null) return [];
  return [{ kind: "try-places", frequencyHz, quarterWaveM: AIR.soundSpeedMPerS / frequencyHz / 4 }];
}

function dip({ value }: Finding, isInterference: true | null): Measure[] {
  return value === null ? [] : [fillDip(Math.abs(value), isInterference)];
}
