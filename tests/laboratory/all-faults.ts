import type { Fault } from "./fault.js";
import { sessionFaults } from "./session-faults.js";
import { signalFaults } from "./signal-faults.js";

/** Every fault there is, in the order of the table. */
export const allFaults: readonly Fault[] = [...signalFaults, ...sessionFaults];
