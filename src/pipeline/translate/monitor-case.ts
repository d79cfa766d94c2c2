import { placesOf, sidesOf } from "../../comparison/positions/places.js";
import type { Measurement, MonitorResult, Results } from "../../model.js";
import { OCTAVES, THIRD_OCTAVES } from "../../standards/iec61260.js";
import { BANDS } from "../../translation/bands.js";
import type { MonitorCase } from "../../translation/monitor-case.js";
import { isMixedOn } from "../../schema/mixed-on.js";

/**
 * Gathers all that is known of one monitor where it is listened to: at the mix position; a car or a phone, which stands
 * elsewhere, where it was measured first.
 */
export function monitorCase(result: MonitorResult, { session, measurements }: Results): MonitorCase {
  const all = measurements.filter((one) => one.monitor === result.id);
  const own = all.filter(({ derived }) => !derived);
  const mix = session.positions.find(({ kind }) => kind === "mix")?.id;
  const at = isMixedOn(result) || own.some(({ position }) => position === mix) ? mix : own[0]?.position;
  const sides = sidesOf(own.filter(({ position }) => position === at));
  const near = session.positions.filter(({ id, kind }) => id === at || (at === mix && kind === "near"));
  return {
    result,
    sides,
    phantom: phantomOf(
      all.filter(({ position }) => position === at),
      sides,
      session.microphone?.gainFixed === true,
    ),
    around: placesOf(own, near).map(({ channels }) => channels),
  };
}

/** Both speakers at once: summed from the sides, or recorded for itself at the same gain. */
function phantomOf(
  here: readonly Measurement[],
  sides: readonly Measurement[],
  gainIsFixed: boolean,
): Measurement | null {
  if (sides.length < 2) return null;
  return here.find(({ channel, derived }) => channel === "both" && (derived || gainIsFixed)) ?? null;
}

/**
 * The room's noise by third octave, dB SPL, as far as a calibrated session knows it: each octave spread evenly over its three.
 *
 * @returns null without a calibration
 */
export function roomNoiseDb({ sides }: Pick<MonitorCase, "sides">): (number | null)[] | null {
  const background = sides.find((side) => side.background?.levelReference === "spl")?.background;
  if (!background) return null;
  return BANDS.map(({ nominalHz }) => {
    const third = THIRD_OCTAVES.findIndex((band) => band.nominalHz === nominalHz);
    const octave = OCTAVES[Math.floor(third / 3)];
    const level = background.bands.find((band) => band.nominalHz === octave?.nominalHz)?.levelDb ?? null;
    return level === null ? null : level - 10 * Math.log10(3);
  });
}
