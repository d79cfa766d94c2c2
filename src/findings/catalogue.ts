import { decayWords } from "./words/decay.js";
import { distortionWords } from "./words/distortion.js";
import { leftRightWords } from "./words/left-right.js";
import { lowEndWords } from "./words/low-end.js";
import { noiseWords } from "./words/noise.js";
import { calibrationWords } from "./words/recordings/calibration.js";
import { clockWords } from "./words/recordings/clock.js";
import { disturbanceWords } from "./words/recordings/disturbances.js";
import { extentWords } from "./words/recordings/extent.js";
import { levelWords } from "./words/recordings/level.js";
import { measuredWords } from "./words/recordings/measured.js";
import { recordedNoiseWords } from "./words/recordings/noise.js";
import { processedWords } from "./words/recordings/processed.js";
import { recordedSideWords } from "./words/recordings/sides.js";
import { takeWords } from "./words/recordings/takes.js";
import { whichSweepWords } from "./words/recordings/which-sweep.js";
import { reflectionWords } from "./words/reflections.js";
import { sessionWords } from "./words/session.js";
import { surfaceWords } from "./words/surfaces.js";
import { toneWords } from "./words/tone.js";
import { unknownWords } from "./words/unknown.js";

/**
 * Everything a finding can say, by its code.
 *
 * Monitors are called by their id, as the engineer named them. Figures are rounded here for reading; the finding itself carries
 * them in full.
 */
export const catalogue = {
  // The room and its monitors
  ...lowEndWords,
  ...toneWords,
  ...leftRightWords,
  ...reflectionWords,
  ...decayWords,
  ...surfaceWords,
  ...distortionWords,
  ...noiseWords,
  ...unknownWords,

  // The recordings
  ...levelWords,
  ...processedWords,
  ...disturbanceWords,
  ...recordedNoiseWords,
  ...whichSweepWords,
  ...extentWords,
  ...clockWords,
  ...takeWords,
  ...recordedSideWords,
  ...measuredWords,
  ...calibrationWords,

  // The session
  ...sessionWords,
};

export type Code = keyof typeof catalogue;
export type FactsOf<C extends Code> = Parameters<(typeof catalogue)[C]>[0];
