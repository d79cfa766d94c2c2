import type { Fault } from "./fault.js";

/** What goes wrong with sweep, clock, channels and takes; a new one is a file in `faults/` and a line here. */
export const sessionFaults: readonly Fault[] = [];
