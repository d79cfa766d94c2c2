import type { Measurement, Reflection, Results } from "../model.js";

/** What was recorded of a monitor at the mix position, sums of left and right left out. */
export function measuredAtMix({ session, measurements }: Results, monitor: string): Measurement[] {
  const mix = session.positions.find(({ kind }) => kind === "mix")?.id;
  return measurements.filter(
    (one) => one.monitor === monitor && one.position === mix && !one.derived && one.quality.usable,
  );
}

/** Left and right see one surface when their reflections come within this of each other. */
const SAME_DELAY_S = 0.0003;

/** The reflection of a measurement at a delay; null where there is none. */
export function sameReflection({ reflections }: Measurement, delayS: number): Reflection | null {
  const off = (one: Reflection): number => Math.abs(one.delayS - delayS);
  const near = reflections.filter((one) => off(one) <= SAME_DELAY_S);
  return near.length === 0 ? null : near.reduce((a, b) => (off(b) < off(a) ? b : a));
}
