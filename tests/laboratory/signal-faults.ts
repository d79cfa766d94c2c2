import type { Fault } from "./fault.js";
import { bandLimitedFaults } from "./faults/band-limited.js";
import { clippedFaults } from "./faults/clipped.js";
import { dcOffsetFault } from "./faults/dc-offset.js";
import { distortedFaults } from "./faults/distorted.js";
import { dropoutFaults } from "./faults/dropout.js";
import { humFault } from "./faults/hum.js";
import { knockFault } from "./faults/knock.js";
import { lowSignalFault } from "./faults/low-signal.js";
import { noiseChangedFault } from "./faults/noise-changed.js";
import { notFiniteFault } from "./faults/not-finite.js";
import { processedFaults } from "./faults/processed.js";
import { silentFault } from "./faults/silent.js";

/** What goes wrong with the sound of one recording; a new one is a file in `faults/` and a line here. */
export const signalFaults: readonly Fault[] = [
  ...clippedFaults,
  silentFault,
  notFiniteFault,
  dcOffsetFault,
  ...dropoutFaults,
  knockFault,
  humFault,
  noiseChangedFault,
  ...processedFaults,
  lowSignalFault,
  ...distortedFaults,
  ...bandLimitedFaults,
];
