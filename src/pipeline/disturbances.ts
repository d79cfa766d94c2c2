import type { InputError } from "../errors.js";
import type { Excitation } from "../impulse/excitation.js";
import type { FoundEvent } from "../impulse/event.js";
import { findHum } from "../impulse/hum.js";
import type { MarkerLikeness } from "../impulse/marker-likeness.js";
import { quietCells } from "../impulse/quiet-cells.js";
import { type Knock, type QuietFacts, quietFacts } from "../impulse/quiet-facts.js";
import { LEAST_EXCESS_DB } from "../impulse/strange-cells.js";
import type { Finding, Signal } from "../model.js";
import * as findings from "./findings/signal.js";
import { comesBack, countBlocks, countSeparate, type Noticed, TOGETHER_S } from "./noticed.js";
import { refuseDropouts } from "./refuse-dropouts.js";

/** What disturbs a recording's figures, though not so much that nothing is left. */
export interface Disturbances {
  readonly findings: readonly Finding[];
  /** Of each sweep, the ranges in which a decay cannot be told from what disturbs it. */
  readonly disturbedHz: readonly (readonly [number, number])[][];
  /** How far the noise under a sweep, with what happened there, is over that of the lead. */
  noiseDb(frequencyHz: number, sweep: number): number;
}

/** What tells processing apart from anything a room does. */
export interface Traces {
  /** See `markerAgreement`. */
  readonly markerDb: number | null;
  readonly markersAlike: MarkerLikeness | null;
  /** Of the silence, see `unevennessDb`. */
  readonly unevennessDb: number | null;
}

/** More separate events than this are no knocks: something changes the sound all along. A choice of ours. */
const MOST_KNOCKS = 3;
/** Blocks of a tenth of a second that a knock and its ringing fill at most. Measured: 5 for one near full scale. */
const LONGEST_KNOCKS = 6;
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
  traces: Traces,
): Disturbances {
  const decayS = Math.max(...noticed.map((one) => one.decayS));
  const sweepDb = Math.min(...noticed.map((one) => one.sweepDb));
  // Spectra changed from frame to frame leap as lost samples do.
  const lost = lostBeside(file, traces);
  const processing = lost ? null : toldBy(file, traces);
  if (processing && !noticed.some((one) => one.isDistorted(() => 0))) throw processing;
  refuseDropouts(file, signal, noticed, excitation.growthS);
  if (lost) throw lost;
  const facts = quietFacts(quietCells(signal, excitation, found, decayS), found, signal.sampleRate, decayS, sweepDb);
  const changed = findings.noiseChanged(file, facts.rise);
  const events = noticed.map((_, sweep) => eventsOf(noticed, sweep, facts));
  const isMoving = findings.isMovingGain(facts.gainDb);
  const hum = findings.hum(file, findHum(signal, excitation, found, decayS), sweepDb);
  const isSuspicious = isMoving || changed.length > 0 || events.some(({ length }) => length > 0);
  // Noise that is there in silence as well is none that the sweep makes, and must not pass for its harmonics.
  const isNoise = changed.length > 0 && findings.isRisenInSilence(facts.rise);
  const shiftDb = (hz: number): number => (changed.length > 0 ? shiftAt(facts, hz) : 0);
  // Harmonics without end look like all of these; they are told where distortion is.
  if (!isSuspicious || noticed.some((one) => one.isDistorted(isNoise ? shiftDb : () => 0))) {
    const stays = isNoise ? changed : [];
    return {
      findings: [...hum, ...stays],
      disturbedHz: noticed.map(() => []),
      noiseDb: (hz) => (isNoise ? shiftDb(hz) : 0),
    };
  }
  if (isMoving) throw findings.gainMoved(file, facts.gainDb);
  const knocks = knocksOf(file, events, comesBack(noticed, events, excitation.growthS));
  const touched = noticed.map((one, sweep) =>
    events[sweep]!.map(({ atS, excessDb }) => ({
      byDb: excessDb + SHARE_OF_WINDOW_DB,
      rangeHz: touchedHz(atS, one, excitation),
    })),
  );
  return {
    findings: [...knocks, ...hum, ...changed],
    disturbedHz: touched.map((ranges) => ranges.map(({ rangeHz }) => rangeHz)),
    noiseDb(hz, sweep) {
      const here = touched[sweep]!.filter(({ rangeHz: [fromHz, toHz] }) => hz >= fromHz && hz <= toHz);
      return Math.max(shiftDb(hz), ...here.map(({ byDb }) => byDb));
    },
  };
}

/** Lost samples move markers against the sweep and leave them alike; what swings, or follows the level, does not. */
function lostBeside(file: string, { markerDb, markersAlike }: Traces): InputError | null {
  if (!markersAlike || markersAlike.gainDb === null || findings.isOtherForMarkers(markerDb)) return null;
  return findings.isOutOfPlace(markersAlike.lateS) ? findings.lostBesideMarkers(file, markersAlike.lateS) : null;
}

/** What the markers or the silence tell of something that changes the sound on its way; null if nothing. */
function toldBy(file: string, { markerDb, markersAlike, unevennessDb }: Traces): InputError | null {
  if (findings.isOtherForMarkers(markerDb)) return findings.followedLevel(file, markerDb);
  if (markersAlike && findings.areStrangers(markersAlike.unlikeDb)) {
    return findings.changedBetween(file, markersAlike.unlikeDb);
  }
  const changeDb = markersAlike?.gainDb ?? null;
  if (findings.isOtherForMarkers(changeDb)) return findings.markersApart(file, changeDb);
  return findings.hasHoles(unevennessDb) ? findings.noiseWithHoles(file, unevennessDb) : null;
}

/** What happened under one sweep: in the cells it left quiet, and what its response does not explain. */
function eventsOf(noticed: readonly Noticed[], sweep: number, facts: QuietFacts): Knock[] {
  const { strange, spanS } = noticed[sweep]!;
  const untilS = noticed[sweep + 1]?.spanS[0] ?? Number.POSITIVE_INFINITY;
  return [
    // Noise that rose for good is no event.
    ...strange.filter(({ excessDb, bandHz }) => excessDb - shiftAt(facts, bandHz) >= LEAST_EXCESS_DB),
    ...facts.knocks.filter(({ atS }) => atS >= spanS[0] && atS < untilS),
  ];
}

/** @throws {InputError} when these are too many for knocks */
function knocksOf(file: string, events: readonly (readonly Knock[])[], isAgain: boolean): Finding[] {
  const worst = events.flat().reduce<Knock | null>((a, b) => (b.excessDb > (a?.excessDb ?? 0) ? b : a), null);
  if (!worst) return [];
  const isLasting = events.some((some) => countSeparate(some) > MOST_KNOCKS || countBlocks(some) > LONGEST_KNOCKS);
  if (isLasting) throw findings.lossy(file, worst);
  return [findings.knock(file, worst, isAgain)];
}

/** The frequencies whose response, as far as figures are read off it, was being recorded at an instant. */
function touchedHz(atS: number, { zeroS, decayS }: Noticed, { growthS, sweptHz }: Excitation): [number, number] {
  if (growthS === null) return [...sweptHz];
  const at = (second: number): number => sweptHz[0] * Math.exp((second - zeroS) / growthS);
  return [at(atS - 2 * decayS), at(atS + TOGETHER_S)];
}

/** The rise of the octave band that holds a frequency. */
function shiftAt({ bandHz, shiftDb }: Pick<QuietFacts, "bandHz" | "shiftDb">, hz: number): number {
  const distance = (band: number): number => Math.abs(Math.log(bandHz[band]! / hz));
  const nearest = bandHz.reduce((best, _, band) => (distance(band) < distance(best) ? band : best), 0);
  return shiftDb[nearest]!;
}
