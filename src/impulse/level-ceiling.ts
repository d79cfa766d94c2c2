import { peakOf } from "../dsp/peak.js";
import type { Signal } from "../model.js";
import type { Excitation } from "./excitation.js";

/** Many sweeps' crests that end at one level. */
export interface LevelCeiling {
  /** Peak, dB re full scale. */
  readonly levelDbfs: number;
  /** How many separate crests reach it. */
  readonly crests: number;
}

/** Lower there are too few cycles in a block; higher too few samples in a cycle for its peak. */
const LOOKED_AT_HZ = [80, 3000] as const;
const BLOCK_S = 0.01;
/** A block or two may stick out by what a filter makes of an edge. */
const STICK_OUT = 1;
/** Crests that end so near to each other, dB: a rail that a filter has rounded moves by no more. */
const WIDTHS_DB = [0.05, 0.1] as const;
/** Between two crests the level falls by this at least. */
const DIP_DB = 1;
const LEAST_CRESTS = 4;
/**
 * A round crest spends half of the time within 4 w of its top within w of it, since it is a parabola: sqrt(w / 4 w). What is cut off
 * spends all of it there.
 */
const FLAT_SHARE = 0.7;

/**
 * Finds a level that the recorded sweep reaches again and again and never passes, as behind a clipped input.
 *
 * In a room the level of a sweep rises and falls with frequency, and every crest ends where the room has it. Crests at separate
 * frequencies that all end at one level were cut off by what came after the microphone, even where a later filter has rounded the
 * edges by which `levelFacts` knows them.
 *
 * @param zeroSample - of the file, at which the start frequency is heard
 * @returns null when there is no such level. Not seen: fewer than four crests that are cut off
 * @remarks Limits are choices of ours. Clean studios: 3 crests at the most, and those with a share of 0.6
 */
export function levelCeiling(
  { samples, sampleRate }: Signal,
  { growthS, sweptHz }: Excitation,
  zeroSample: number,
): LevelCeiling | null {
  if (growthS === null) return null;
  const [from, to] = LOOKED_AT_HZ.map((hz) => zeroSample + growthS * sampleRate * Math.log(hz / sweptHz[0]));
  const block = Math.round(BLOCK_S * sampleRate);
  const peaksDb: number[] = [];
  for (let start = Math.max(0, Math.round(from!)); start + block <= Math.min(to!, samples.length); start += block) {
    peaksDb.push(20 * Math.log10(Math.max(Number.MIN_VALUE, peakOf(samples, start, start + block))));
  }
  const topDb = peaksDb.toSorted((a, b) => b - a)[STICK_OUT];
  if (topDb === undefined) return null;
  const within = (widthDb: number): number => peaksDb.filter((peak) => peak >= topDb - widthDb).length;
  const found = WIDTHS_DB.filter((width) => within(width) >= FLAT_SHARE * within(4 * width)).map((width) =>
    countCrests(peaksDb, topDb, width),
  );
  const crests = Math.max(0, ...found);
  return crests >= LEAST_CRESTS ? { levelDbfs: topDb, crests } : null;
}

function countCrests(peaksDb: readonly number[], topDb: number, widthDb: number): number {
  let crests = 0;
  let isApart = true;
  for (const peak of peaksDb) {
    if (isApart && peak >= topDb - widthDb) crests++;
    if (peak >= topDb - widthDb) isApart = false;
    else if (peak < topDb - DIP_DB) isApart = true;
  }
  return crests;
}
