import { encodeWav } from "../../src/recording/encode-wav.js";
import type { Results, SampleFormat, Session, SweepRecipe } from "../../src/model.js";
import type { Scenario } from "../../src/simulate/scenario.js";
import { recordSession } from "../../src/simulate/session/record-session.js";
import { openStudio, type Reel, type Studio } from "../../src/simulate/session/studio.js";
import { makeSweepRecipe, type SweepOptions } from "../../src/sweep/recipe.js";
import { renderReel } from "../../src/sweep/render.js";
import { analyseInMemory, recipeFile, text } from "../pipeline/in-memory-session.js";
import { cleanStudio } from "../simulate/test-rooms.js";

/** What one file of a session holds. */
export interface LabSound {
  /** Full scale is 1. */
  readonly channels: readonly Float64Array[];
  readonly sampleRate: number;
  readonly format: SampleFormat;
  /** What a broken writer makes of the file's bytes. */
  readonly rewrite?: (bytes: Uint8Array) => Uint8Array;
}

/** A session as sounds, before anybody wrote them to a disk. */
export interface LabSession {
  readonly session: Session;
  readonly recipe: SweepRecipe;
  /** What was played. */
  readonly reel: Reel;
  /** By file; those that the session's recordings name. */
  readonly sounds: Readonly<Record<string, LabSound>>;
  /** Whatever else the session names, by file. */
  readonly tables?: Readonly<Record<string, string>>;
}

/** Silence in every recording before the reel begins. */
export const LEAD_S = 0.3;
/** Short enough to be analysed many times, with the decay and the leads that a session has. */
export const labSweep = { durationS: 4, leadS: 1.5, gapS: 1.2, tailS: 0.4 } as const;

export const labRecipe = makeSweepRecipe(labSweep);
const reel = reelOf(labRecipe);
const room = cleanStudio(1);
const { gainDb, clockDriftPpm, noise, tailS } = room.recorder;
/** How the recorder's clock runs against the player's. */
export const LAB_CLOCK_PPM = clockDriftPpm;
/** Without a calibrator. */
const scenario: Scenario = { ...room, recorder: { gainDb, clockDriftPpm, noise, tailS, leadsS: [LEAD_S] } };
const studios = new Map<Change, Studio>();

/** What happens to the sound of one channel before the loudspeaker plays it. */
type Change = (samples: Float64Array) => Float64Array;
const asItIs: Change = (samples) => samples;

/** The reel of a recipe as it is played. */
export function reelOf(recipe: SweepRecipe): Reel {
  return { ...renderReel(recipe), sampleRate: recipe.sampleRate };
}

/** How many recordings there are of each position: mix, left, right. */
type Takes = Readonly<Record<string, number>>;

/**
 * Records the laboratory's studio, in which nothing is wrong: flat two-way nearfields, a recorder that drops nothing.
 *
 * The room is computed once; takes differ by their noise. Recordings are called `nears-mix.wav`, `nears-mix-2.wav`,
 * `nears-left.wav` and so on.
 *
 * @param takes - how many recordings of each position: mix, left, right
 * @param played - what the amplifiers make of the reel; a studio is set up once for each such function
 */
export function cleanSession(takes: Takes = { mix: 1 }, played = asItIs): LabSession {
  const open = studios.get(played) ?? openStudio(scenario, { ...reel, L: played(reel.L), R: played(reel.R) });
  studios.set(played, open);
  return recorded(scenario, reel, open, takes);
}

/**
 * Records a studio in which something is otherwise, or another reel. It takes some seconds, since its room is computed anew.
 *
 * @param change - of the laboratory's own studio
 * @param sounding - what is played; the session says the laboratory's own reel in any case
 */
export function otherSession(
  change: (own: Scenario) => Scenario,
  takes: Takes = { mix: 1 },
  sounding: Reel = reel,
): LabSession {
  const other = change(scenario);
  return recorded(other, sounding, openStudio(other, sounding), takes);
}

const studiosOfSweeps = new Map<string, LabSession>();

/** Records the laboratory's studio with another reel, and the session says so; each reel is recorded once. */
export function sessionOfSweep(options: SweepOptions): LabSession {
  const key = JSON.stringify(options);
  const known = studiosOfSweeps.get(key);
  if (known) return known;
  const recipe = makeSweepRecipe(options);
  const own = reelOf(recipe);
  const made = { ...recorded(scenario, own, openStudio(scenario, own), { mix: 1 }), recipe, reel: own };
  studiosOfSweeps.set(key, made);
  return made;
}

function recorded(own: Scenario, played: Reel, open: Studio, takes: Takes): LabSession {
  const positions = own.positions
    .filter(({ id }) => (takes[id] ?? 0) > 0)
    .map((one) => ({ ...one, takes: takes[one.id]! }));
  const { session, recordings } = recordSession({ ...own, positions }, played, (pair, position) =>
    open.sound(pair, position),
  );
  const sounds = Object.fromEntries(
    recordings.map(({ file, samples }) => [
      file,
      { channels: [samples], sampleRate: played.sampleRate, format: "pcm24" as const },
    ]),
  );
  return { session, recipe: labRecipe, reel, sounds };
}

const unchanged = (bytes: Uint8Array): Uint8Array => bytes;

/** Analyses a laboratory session the way a report does. */
export async function analyseLab({ session, recipe, sounds, tables = {} }: LabSession): Promise<Results> {
  const tableFiles = Object.fromEntries(Object.entries(tables).map(([file, content]) => [file, text(content)]));
  const soundFiles = Object.fromEntries(
    Object.entries(sounds).map(([file, { channels, sampleRate, format, rewrite = unchanged }]) => [
      file,
      rewrite(encodeWav(channels, sampleRate, format)),
    ]),
  );
  const files = { ...soundFiles, ...tableFiles, [session.sweep]: recipeFile(recipe) };
  return (await analyseInMemory(session, files)).results;
}
