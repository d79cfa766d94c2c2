/** Files of each kind: few in `npm test`, many in `npm run fuzz`, which says so in the environment. */
const isFull = process.env.CARRYWELL_FUZZ === "full";

export function howMany(usual: number, full: number): number {
  return isFull ? full : usual;
}

/** `npm run fuzz` tries other files every time, and prints the seed with which they can be had again. */
export const firstSeed = Number(process.env.CARRYWELL_FUZZ_SEED ?? 20_260_514);
