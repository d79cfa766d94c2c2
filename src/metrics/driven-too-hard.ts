import type { Distortion } from "../model.js";

/** A loudspeaker or an input that was driven beyond what it passes unbent. */
export interface DrivenTooHard {
  readonly percent: number;
  readonly frequencyHz: number;
  /** The high odd harmonics are as strong as the low: something clips, a limiter or an amplifier. */
  readonly isClipped: boolean;
  /** Harmonics are so many or so strong that what follows the direct sound may be theirs. */
  readonly hidesDecays: boolean;
}

const JUDGED_HZ = [80, 8000] as const;
const MIDDLE_HZ = [200, 4000] as const;
/** Good loudspeakers stay under 1 % there; where a limiter works, 4 %. */
const MIDDLE_PERCENT = 3;
/** 20 dB under the sound itself, where T20 is still read. A choice of ours. */
const HIDES_DECAYS_PERCENT = 10;
/** A driver's own curve makes a fifth harmonic 20 dB or more under the third; an edge makes it as strong. */
const FIFTH_RE_THIRD_DB = -12;
const LEAST_FIFTH_DB = -55;
const CLIPPED_PERCENT = 2;
/** Where crests are looked at; a sine cut off by 1 dB has 4 %, loudspeakers 0.5 % there. */
const BENT_HZ = [80, 3000] as const;
const BENT_PERCENT = 1;
const BENT_PLACES = 2;
/** Places, a fortieth of a decade apart: a quarter and an eighth of a decade. */
const CLIPPED_PLACES = 10;
const LOUD_PLACES = 5;

/** Whether the harmonics are those of something that clips, however weak. */
function looksClipped(distortion: Distortion): boolean {
  return clippedPlaces(distortion).length >= CLIPPED_PLACES;
}

/**
 * Tells distortion that touches the response itself from that of a loudspeaker at its work.
 *
 * @returns the worst place; null for harmonics that a loudspeaker may have
 */
export function drivenTooHard(distortion: Distortion): DrivenTooHard | null {
  const known = places(distortion, JUDGED_HZ).flatMap(({ hz, percent }) => (percent === null ? [] : [{ hz, percent }]));
  const isClipped = looksClipped(distortion);
  const isBent = isClipped && known.filter(({ percent }) => percent > CLIPPED_PERCENT).length >= LOUD_PLACES;
  // A place without a figure is one where the noise hides the harmonics: little distortion.
  const middle = places(distortion, MIDDLE_HZ)
    .map(({ percent }) => percent ?? 0)
    .sort((a, b) => a - b);
  const usual = middle[middle.length >> 1] ?? 0;
  if (!isBent && !(usual > MIDDLE_PERCENT)) return null;
  const worst = known.reduce((a, b) => (b.percent > a.percent ? b : a));
  const hidesDecays = isClipped || usual > HIDES_DECAYS_PERCENT;
  return { percent: worst.percent, frequencyHz: worst.hz, isClipped, hidesDecays };
}

/** Whether harmonics without end are to be expected: nothing else can be told from them then. */
export function hidesTheRest(distortion: Distortion): boolean {
  return looksClipped(distortion) || drivenTooHard(distortion) !== null;
}

/** Whether harmonics of 1 % are there at more than one place, as wherever a crest of the sweep was cut off. */
export function isBent(distortion: Distortion | null): boolean {
  const bent = distortion ? places(distortion, BENT_HZ).filter(({ percent }) => (percent ?? 0) > BENT_PERCENT) : [];
  return bent.length >= BENT_PLACES;
}

function clippedPlaces(distortion: Distortion): number[] {
  return places(distortion, JUDGED_HZ).flatMap(({ hz, thirdDb, fifthDb }) =>
    thirdDb !== null && fifthDb !== null && fifthDb > LEAST_FIFTH_DB && fifthDb > thirdDb + FIFTH_RE_THIRD_DB
      ? [hz]
      : [],
  );
}

function places(
  { frequencyHz, thdPercent, harmonicsDb }: Distortion,
  [fromHz, toHz]: readonly [number, number],
): { hz: number; percent: number | null; thirdDb: number | null; fifthDb: number | null }[] {
  return frequencyHz.flatMap((hz, n) => {
    if (hz < fromHz || hz > toHz) return [];
    const [thirdDb, fifthDb] = [harmonicsDb[3]?.[n] ?? null, harmonicsDb[5]?.[n] ?? null];
    return [{ hz, percent: thdPercent[n] ?? null, thirdDb, fifthDb }];
  });
}
