/** Targets that a session may name without bringing a file. */
export const builtInTargets = ["flat", "tilt", "bs1116", "ebu3276"] as const;

export type BuiltInTarget = (typeof builtInTargets)[number];
