import type { Fault } from "./fault.js";
import { bothSpeakersFault } from "./faults/both-speakers.js";
import { calibrationSuspectFaults } from "./faults/calibration-suspect.js";
import { clockDriftFault } from "./faults/clock-drift.js";
import { cutOffFaults } from "./faults/cut-off.js";
import { duplicateTakeFaults } from "./faults/duplicate-take.js";
import { chainInvertedFault } from "./faults/chain-inverted.js";
import { noSweepFault } from "./faults/no-sweep.js";
import { polarityFaults } from "./faults/polarity.js";
import { positionMovedFaults } from "./faults/position-moved.js";
import { rateMismatchFaults } from "./faults/rate-mismatch.js";
import { swappedChannelsFault } from "./faults/swapped-channels.js";
import { takesDifferFault } from "./faults/takes-differ.js";
import { wrongSweepFaults } from "./faults/wrong-sweep.js";

/** What goes wrong with sweep, clock, channels and takes; a new one is a file in `faults/` and a line here. */
export const sessionFaults: readonly Fault[] = [
  noSweepFault,
  ...wrongSweepFaults,
  ...cutOffFaults,
  ...rateMismatchFaults,
  clockDriftFault,
  ...polarityFaults,
  chainInvertedFault,
  bothSpeakersFault,
  swappedChannelsFault,
  ...duplicateTakeFaults,
  ...positionMovedFaults,
  takesDifferFault,
  ...calibrationSuspectFaults,
];
