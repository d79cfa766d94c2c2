/** Files of each kind: few in `npm test`, many in `npm run fuzz`, which says so in the environment. */
const isFull = process.env.CARRYWELL_FUZZ === "full";

export function howMany(usual: number, full: number): number {
  return isFull ? full : usual;
}

/** Other seeds give other files. */
export const firstSeed = Number(process.env.CARRYWELL_FUZZ_SEED ?? 20_260_514);
