import type { Finding, Measure, Results } from "../../model.js";
import { mirroredSurface } from "../../words/surface-name.js";
import { measuredAtMix } from "../at-mix.js";

/**
 * Moves of a loudspeaker that take a dip of a surface out of the third octave it spoils: of both sides by the same where the trouble is
 * both sides', as the side does that it is told of.
 */
export function moveLoudspeaker(
  { bandHz, channels, monitors }: Finding,
  results: Results,
): Extract<Measure, { kind: "move-loudspeaker" }>[] {
  const monitor = monitors[0];
  if (monitor === undefined || bandHz === null) return [];
  const sides = measuredAtMix(results, monitor)
    .filter(({ channel }) => channels.includes(channel))
    .flatMap(({ id, channel }) => {
      const dips = results.surfaces?.measurements.find((one) => one.id === id)?.dips?.measured ?? [];
      const dip = dips.find(({ frequencyHz }) => Math.abs(Math.log2(frequencyHz / bandHz)) < SAME_OCTAVES);
      return dip ? [{ channel, dip }] : [];
    });
  const [told] = sides.toSorted((a, b) => off(a.dip, bandHz) - off(b.dip, bandHz));
  if (!told) return [];
  return sides.flatMap(({ channel }) =>
    told.dip.moves.map((move) => ({
      ...{ kind: "move-loudspeaker" as const, monitor, channel, fromHz: told.dip.frequencyHz, ...move },
      surface: channel === told.channel ? move.surface : mirroredSurface(move.surface),
    })),
  );
}

function off({ frequencyHz }: { readonly frequencyHz: number }, bandHz: number): number {
  return Math.abs(Math.log(frequencyHz / bandHz));
}

/** Two sides have one dip when theirs lie so near. */
const SAME_OCTAVES = 1 / 12;

/** As far as a chair and a desk go without turning the room over, and the least that is worth it: choices of ours. */
const STEP_M = 0.3;
const LEAST_DB = 1;
/** Standard uncertainty of the seat's place, by a tape measure: a choice of ours. */
const PLACE_M = 0.02;
/** Within it the level is looked up at so many places on each side, lest a node between them be missed. */
const STEPS = 4;
/** Real walls give way: the node of a mode is no silence. */
const DEEPEST_DB = -20;

/**
 * Moving the listener along a mode between front and rear wall: its pressure goes as the cosine of half waves over the length.
 *
 * Only along the room: aside of the middle the two sides would differ, and up and down nobody sits.
 *
 * @returns nothing where the mode is another or may be, as in a room as wide as long, or its place or the length are not known, or nothing is won
 */
export function moveListener(frequencyHz: number, { roomModes, session, surfaces }: Results): Measure[] {
  const mode = roomModes?.measured.find((one) => one.frequencyHz === frequencyHz);
  const candidates = (mode?.predicted ?? []).flatMap((index) => roomModes?.predicted?.[index] ?? []);
  const likely = candidates.length === 1 ? candidates[0] : undefined;
  const lengthM = session.room?.lengthM;
  const fromM = session.positions.find(({ kind }) => kind === "mix")?.xyzM?.[0];
  if (!likely || lengthM === undefined || fromM === undefined) return [];
  const [halfWaves, aside, up] = likely.order;
  if (halfWaves === 0 || aside > 0 || up > 0) return [];
  const levelDb = (atM: number): number =>
    Math.max(DEEPEST_DB, 20 * Math.log10(Math.abs(Math.cos((halfWaves * Math.PI * atM) / lengthM))));
  const best = [-STEP_M, STEP_M].reduce((a, b) => (levelDb(fromM + b) < levelDb(fromM + a) ? b : a));
  const [nowDb, thenDb] = [levelDb(fromM), levelDb(fromM + best)];
  if (nowDb - thenDb < LEAST_DB) return [];
  const offM = 2 * (surfaces?.placementUncertaintyM ?? PLACE_M);
  const rangeAt = (atM: number): [number, number] => {
    const levels = Array.from({ length: 2 * STEPS + 1 }, (_, n) => levelDb(atM + (offM * (n - STEPS)) / STEPS));
    return [Math.min(...levels), Math.max(...levels)];
  };
  return [
    {
      ...{ kind: "move-listener", byM: best, nowDb, thenDb },
      ...{ nowRangeDb: rangeAt(fromM), thenRangeDb: rangeAt(fromM + best) },
    },
  ];
}
