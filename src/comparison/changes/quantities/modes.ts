import type { MeasuredMode, Measurement } from "../../../model.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { audibleModeS } from "../../../standards/modal-decay.js";
import type { MeasurementPair, Quantity, Reading, Side } from "../reading.js";

const FREQUENCY = "modeHz";
const DECAY = "modeT60S";

type Mode = Measurement["modes"][number];

/** No mode is taken to be known better than this, standard: 0.1 Hz and 5 %, what the method is held to in tests of known modes. */
const OWN_HZ = 0.1;
const OWN_SHARE = 0.05;
/** A mode that has moved farther is another one: a choice of ours, a third of a semitone more than air of 10 degrees' difference does. */
const SAME_MODE = 0.04;

/**
 * Frequency and decay of the modes that both found; a shorter decay is better as long as it can be heard.
 *
 * One that is found on one side only may have gone, or merely ring too little, or overlap another, to be told: that is open.
 */
export const modes: Quantity<MeasurementPair> = {
  of: ({ before, after, sides }) => {
    const endHz = Math.min(schroederHz(sides.before), schroederHz(sides.after));
    const single = [before.modes, after.modes].map((all) => all.filter(({ frequencyHz }) => frequencyHz < endHz));
    const pairs = matched(single[0]!, single[1]!);
    const [gone, come] = single.map((all, side) => all.filter((mode) => pairs.every((pair) => pair[side] !== mode)));
    return [
      ...pairs.flatMap(([old, now]) => {
        const reason = isCrowded(sides.before, old) || isCrowded(sides.after, now) ? CROWDED : null;
        return [moved(old, now), rings(old, now)].map((reading) => ({ ...reading, reason }));
      }),
      ...gone!.map((mode) => onOneSide(mode, "before")),
      ...come!.map((mode) => onOneSide(mode, "after")),
    ];
  },
  justNoticeable: { [FREQUENCY]: JUST_NOTICEABLE.modeFrequency, [DECAY]: JUST_NOTICEABLE.decay },
};

const CROWDED = "another lies so near that the two may have been mistaken for each other";

/** From here up several modes overlap everywhere: what is found as one is another mixture at every place. */
function schroederHz({ results }: Side): number {
  return results.roomModes?.schroederHz ?? Infinity;
}

/**
 * Whether another may be taken for this mode: a single one whose bandwidth reaches into where this one may be found again, or
 * one of a group that lies there. A group that merely surrounds a mode found single cannot be mistaken for it.
 */
function isCrowded({ results }: Side, { frequencyHz }: Mode): boolean {
  const measured = results.roomModes?.measured ?? [];
  const [fromHz, toHz] = [frequencyHz * (1 - SAME_MODE), frequencyHz * (1 + SAME_MODE)];
  const reaches = ([lowHz, highHz]: readonly [number, number]): boolean => lowHz < toHz && highHz > fromHz;
  const isThis = (one: MeasuredMode): boolean => one.kind === "mode" && one.frequencyHz === frequencyHz;
  const isSingle = measured.some(isThis);
  return measured.some((one) => {
    if (one.kind === "mode" || !isSingle) return !isThis(one) && reaches(one.rangeHz);
    return one.members.some((member) => reaches([member.frequencyHz, member.frequencyHz]));
  });
}

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
    uncertainty: Math.hypot(ownHz(old), ownHz(now)),
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
    uncertainty: Math.hypot(ownS(old), ownS(now)),
    justNoticeable: JUST_NOTICEABLE.decay,
    goal: unheardS === null ? null : { name: "what stays unheard", before: over(old.t60S), after: over(now.t60S) },
    reason: null,
  };
}

function onOneSide({ frequencyHz, t60S }: Mode, side: "before" | "after"): Reading {
  return {
    quantity: DECAY,
    bandHz: frequencyHz,
    fraction: null,
    atS: null,
    unit: "s",
    before: side === "before" ? t60S : null,
    after: side === "after" ? t60S : null,
    uncertainty: null,
    justNoticeable: JUST_NOTICEABLE.decay,
    goal: null,
    reason: side === "before" ? "no single mode is found there after" : "no single mode was found there before",
  };
}

function ownHz({ frequencyUncertaintyHz = 0 }: Mode): number {
  return Math.max(OWN_HZ, frequencyUncertaintyHz);
}

function ownS({ t60S, t60UncertaintyS = 0 }: Mode): number {
  return Math.max(OWN_SHARE * t60S, t60UncertaintyS);
}
