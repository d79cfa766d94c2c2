/** Targets that a session may name without bringing a file. */
export const builtInTargets: readonly string[] = ["tilt"];
