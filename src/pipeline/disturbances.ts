import type { Excitation } from "../impulse/excitation.js";
import type { FoundEvent } from "../impulse/find.js";
import { findHum } from "../impulse/hum.js";
import type { Jump } from "../impulse/jumps.js";
import { quietCells } from "../impulse/quiet-cells.js";
import { type Knock, quietFacts } from "../impulse/quiet-facts.js";
import { LEAST_EXCESS_DB, type StrangeCell } from "../impulse/strange-cells.js";
import type { Finding, NoiseSpectrum, Signal } from "../model.js";
import { heldSamples } from "../recording/held-samples.js";
import * as findings from "./findings/signal.js";

/** What was noticed while one sweep was deconvolved. */
export interface Noticed {
  /** Where the sweep begins and ends in the file, seconds. */
  readonly spanS: readonly [number, number];
  /** File second of the instant of the start frequency. */
  readonly zeroS: number;
  /** After so long the response has sunk into the noise. */
  readonly decayS: number;
  /** Mean square of the recorded sweep re full scale, dB. */
  readonly sweepDb: number;
  readonly jumps: readonly Jump[];
  readonly strange: readonly StrangeCell[];
}

/** What disturbs a recording's figures, though not so much that nothing is left. */
export interface Disturbances {
  readonly findings: readonly Finding[];
  /** Of each sweep, the ranges in which a decay cannot be told from what disturbs it. */
  readonly disturbedHz: readonly (readonly [number, number])[][];
  /** Noise of the lead as it was under the sweep, what happened there included. */
  raise(noise: NoiseSpectrum | null, sweep: number): NoiseSpectrum | null;
}

/** More separate events than this are no knocks: something changes the sound all along. A choice of ours. */
const MOST_KNOCKS = 3;
/** Blocks of a tenth of a second that a knock and its ringing fill at most. Measured: 5 for one near full scale. */
const LONGEST_KNOCKS = 6;
/** Events nearer than this are one. */
const TOGETHER_S = 0.35;
/** A jump is in one block, or on the border of two, and rings in the response's edges for one or two more. */
const BLOCKS_PER_JUMP = 4;
const JUMPS_PER_PLACE = 2;
/** One knock of a block counts in a response window of a second. */
const SHARE_OF_WINDOW_DB = -10;

/**
 * Judges what was noticed in one recording.
 *
 * @throws {InputError} when samples are missing, a gain moved under the sweeps or something else changed the sound all along:
 *   no figure can come from it
 */
export function judge(
  file: string,
  signal: Signal,
  excitation: Excitation,
  found: readonly FoundEvent[],
  noticed: readonly Noticed[],
  markerDb: number | null,
): Disturbances {
  const decayS = Math.max(...noticed.map((one) => one.decayS));
  const sweepDb = Math.min(...noticed.map((one) => one.sweepDb));
  refuseDropouts(file, signal, noticed);
  if (findings.isOtherForMarkers(markerDb)) throw findings.followedLevel(file, markerDb);
  const facts = quietFacts(quietCells(signal, excitation, found, decayS), found, signal.sampleRate, decayS, sweepDb);
  if (findings.isMovingGain(facts.gainDb)) throw findings.gainMoved(file, facts.gainDb);

  const events = noticed.map(({ strange, spanS }, sweep) => {
    const until = noticed[sweep + 1]?.spanS[0] ?? Number.POSITIVE_INFINITY;
    const stillStrange = strange.filter((cell) => cell.excessDb - shiftAt(facts, cell.bandHz) >= LEAST_EXCESS_DB);
    return [...stillStrange, ...facts.knocks.filter(({ atS }) => atS + 0.1 > spanS[0] && atS < until)];
  });
  const told: Finding[] = [];
  const worst = events.flat().reduce<Knock | null>((a, b) => (b.excessDb > (a?.excessDb ?? 0) ? b : a), null);
  if (worst) {
    const places = Math.max(...events.map(countSeparate));
    const isLasting = places > MOST_KNOCKS || events.some((some) => countBlocks(some) > LONGEST_KNOCKS);
    if (isLasting) throw findings.lossy(file, worst);
    told.push(findings.knock(file, worst));
  }
  const hum = findHum(signal, excitation, found, decayS);
  told.push(...findings.hum(file, hum, sweepDb), ...findings.noiseChanged(file, facts.rise));
  const hasRisen = told.some(({ code }) => code === "noise-changed");

  return {
    findings: told,
    disturbedHz: noticed.map((one, sweep) => events[sweep]!.map(({ atS }) => touchedHz(atS, one, excitation))),
    raise(noise, sweep) {
      if (!noise || (events[sweep]!.length === 0 && !hasRisen)) return noise;
      const touching = events[sweep]!.map((event) => ({
        ...event,
        rangeHz: touchedHz(event.atS, noticed[sweep]!, excitation),
      }));
      const byDb = (hz: number): number =>
        Math.max(
          hasRisen ? shiftAt(facts, hz) : 0,
          ...touching.map(({ rangeHz: [from, to], excessDb }) =>
            hz >= from && hz <= to ? excessDb + SHARE_OF_WINDOW_DB : 0,
          ),
        );
      const powerPerSecond = noise.powerPerSecond.map((power, k) => power * 10 ** (byDb(noise.frequencyHz[k]!) / 10));
      return { ...noise, powerPerSecond };
    },
  };
}

/**
 * Refuses a recording in which samples are missing, one after the other or here and there: what came after them has another
 * place in time.
 *
 * @throws {InputError} then
 */
export function refuseDropouts(file: string, signal: Signal, noticed: readonly Noticed[]): void {
  const decayS = Math.max(...noticed.map((one) => one.decayS));
  const fromS = Math.min(...noticed.map(({ spanS }) => spanS[0]));
  const toS = Math.max(...noticed.map(({ spanS }) => spanS[1])) + decayS;
  const held = heldSamples(signal, fromS * signal.sampleRate, toS * signal.sampleRate);
  const first = held[0];
  if (first) throw findings.heldFor(file, first.sample / signal.sampleRate, first.count, held.length);
  const jumps = noticed.flatMap((one) => one.jumps).filter(({ persists }) => persists);
  const jump = jumps[0];
  const places = countSeparate(jumps.map(({ sample }) => ({ atS: sample / signal.sampleRate })));
  // A lossy link leaps from frame to frame too, but leaves its mark between the leaps as well.
  const blocks = noticed.reduce((sum, { strange }) => sum + countBlocks(strange), 0);
  if (!jump) return;
  const isLossy = blocks > BLOCKS_PER_JUMP * places || jumps.length > JUMPS_PER_PLACE * places;
  throw (isLossy ? findings.leaping : findings.jumped)(file, jump.sample / signal.sampleRate, places);
}

function countSeparate(events: readonly { readonly atS: number }[]): number {
  const times = events.map(({ atS }) => atS).sort((a, b) => a - b);
  return times.filter((atS, n) => n === 0 || atS - times[n - 1]! > TOGETHER_S).length;
}

function countBlocks(events: readonly { readonly atS: number }[]): number {
  return new Set(events.map(({ atS }) => Math.round(10 * atS))).size;
}

/** The frequencies whose response, as far as figures are read off it, was being recorded at an instant. */
function touchedHz(atS: number, { zeroS, decayS }: Noticed, { growthS, sweptHz }: Excitation): [number, number] {
  if (growthS === null) return [...sweptHz];
  const at = (second: number): number => sweptHz[0] * Math.exp((second - zeroS) / growthS);
  return [at(atS - 2 * decayS), at(atS + TOGETHER_S)];
}

/** The rise of the octave band that holds a frequency. */
function shiftAt({ bandHz, shiftDb }: { bandHz: readonly number[]; shiftDb: Float64Array }, hz: number): number {
  let nearest = 0;
  bandHz.forEach((other, band) => {
    if (Math.abs(Math.log(other / hz)) < Math.abs(Math.log(bandHz[nearest]! / hz))) nearest = band;
  });
  return shiftDb[nearest]!;
}
