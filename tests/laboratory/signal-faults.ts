import type { Fault } from "./fault.js";
import { clippedFaults } from "./faults/clipped.js";
import { silentFault } from "./faults/silent.js";

/** What goes wrong with the sound of one recording; a new one is a file in `faults/` and a line here. */
export const signalFaults: readonly Fault[] = [...clippedFaults, silentFault];
