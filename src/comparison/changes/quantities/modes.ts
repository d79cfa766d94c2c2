import type { Measurement } from "../../../model.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { audibleModeS } from "../../../standards/modal-decay.js";
import type { MeasurementPair, Quantity, Reading } from "../reading.js";

const FREQUENCY = "modeHz";
const DECAY = "modeT60S";

type Mode = Measurement["modes"][number];

/** As exactly as modes are measured, as standard uncertainties: 0.1 Hz and 5 %. */
const OWN_HZ = 0.1;
const OWN_SHARE = 0.05;
/** A mode that has moved farther is another one: a choice of ours, a third of a semitone more than air of 10 degrees' difference does. */
const SAME_MODE = 0.04;

/** Frequency and decay of the modes that both found; a shorter decay is better as long as it can be heard. */
export const modes: Quantity<MeasurementPair> = {
  of: ({ before, after }) =>
    matched(before.modes, after.modes).flatMap(([old, now]) => [moved(old, now), rings(old, now)]),
  justNoticeable: { [FREQUENCY]: JUST_NOTICEABLE.modeFrequency, [DECAY]: JUST_NOTICEABLE.decay },
};

/** The nearest first; every mode once. */
function matched(before: readonly Mode[], after: readonly Mode[]): [Mode, Mode][] {
  const near = before
    .flatMap((old) => after.map((now) => ({ old, now, apart: Math.abs(now.frequencyHz / old.frequencyHz - 1) })))
    .filter(({ apart }) => apart <= SAME_MODE)
    .sort((a, b) => a.apart - b.apart);
  const taken = new Set<Mode>();
  const pairs: [Mode, Mode][] = [];
  for (const { old, now } of near) {
    if (taken.has(old) || taken.has(now)) continue;
    taken.add(old).add(now);
    pairs.push([old, now]);
  }
  return pairs.sort(([a], [b]) => a.frequencyHz - b.frequencyHz);
}

function moved(old: Mode, now: Mode): Reading {
  // Of a mode, Q = f T / 2.2 (3 dB bandwidth 2.2 / T).
  const quality = (old.frequencyHz * old.t60S) / 2.2;
  return {
    quantity: FREQUENCY,
    bandHz: old.frequencyHz,
    fraction: null,
    atS: null,
    unit: "Hz",
    before: old.frequencyHz,
    after: now.frequencyHz,
    uncertainty: Math.SQRT2 * OWN_HZ,
    justNoticeable: {
      ...JUST_NOTICEABLE.modeFrequency,
      value: JUST_NOTICEABLE.modeFrequency.value / Math.sqrt(quality),
    },
    goal: null,
    reason: null,
  };
}

function rings(old: Mode, now: Mode): Reading {
  const unheardS = audibleModeS(old.frequencyHz);
  const over = (timeS: number): number => Math.max(0, timeS - unheardS!);
  return {
    quantity: DECAY,
    bandHz: old.frequencyHz,
    fraction: null,
    atS: null,
    unit: "s",
    before: old.t60S,
    after: now.t60S,
    uncertainty: OWN_SHARE * Math.hypot(old.t60S, now.t60S),
    justNoticeable: JUST_NOTICEABLE.decay,
    goal: unheardS === null ? null : { name: "what stays unheard", before: over(old.t60S), after: over(now.t60S) },
    reason: null,
  };
}
