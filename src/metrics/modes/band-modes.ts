import { type Agreement, agreementOn, type Look } from "./agreement.js";
import { type BandView, viewBand } from "./band-view.js";
import { findPoles } from "./find-poles.js";
import { type Candidate, fitAmplitudes } from "./fit-amplitudes.js";
import type { LowResponse } from "./low-response.js";
import { type Pole, qualityOf } from "./pole.js";
import { shiftedProducts, signalSpace, type SignalSpace } from "./signal-space.js";
import type { SubBand } from "./sub-band.js";

/** A mode that all looks show. */
export type AgreedMode = Candidate & Agreement;

/** What was found in one band. */
export interface BandModes {
  readonly band: SubBand;
  readonly modes: readonly AgreedMode[];
  /** The rest: the loudspeaker's own poles, what only one look shows, what stands for the modes of other bands. */
  readonly others: readonly Pole[];
  readonly startS: number;
  readonly lookS: number;
}

/** By then the decimating filter has let go of what came before the arrival. */
const START_S = 0.006;
const LATER_S = 0.021;
const SHORTER = 0.7;
/** A second look takes so many times the dimensions: true modes stay where they are. */
const MORE_DIMENSIONS = 1.2;
/** Further looks leave out one of so many groups of responses in turn. */
const MOST_GROUPS = 3;
/** Under this quality nothing rings, and loudspeakers have poles of their own: that of a vented box reaches 2 to 3. */
const LEAST_QUALITY = 3;
/** Times its own uncertainty that a mode's amplitude must be where it shows best: a choice of ours. */
const LEAST_SIGNIFICANCE = 8;
/** What has less of the energy, re the strongest of the band, is as likely the model's error as a mode: a choice of ours. */
const LEAST_ENERGY = 1e-3;

/**
 * Finds the modes of one band that ring in several responses, each more or less.
 *
 * The order comes from the data: as many dimensions as stand over the noise. What a higher order does not show too, or what hangs
 * on a third of the responses (with one response: on when the look begins or ends), is left out.
 *
 * @returns null where nothing can be looked at
 */
export function bandModes(responses: readonly LowResponse[], band: SubBand): BandModes | null {
  const view = viewBand(responses, band, START_S);
  if (!view) return null;
  const space = spaceOf(view);
  const candidates = fitAmplitudes(view, findPoles(space, space.order, band)).filter((pole) => isInside(pole, band));
  const likely = plausible(candidates);
  const agreements = likely.length === 0 ? [] : agreementOn(likely, otherLooks(view, space, responses));
  const modes = likely.flatMap((candidate, k) => (agreements[k] ? [{ ...candidate, ...agreements[k] }] : []));
  const others = candidates.filter((candidate) => !likely.some((one, k) => one === candidate && agreements[k]));
  return { band, modes, others, startS: view.startS, lookS: view.signals[0]!.length / band.sampleRate };
}

/** A higher order; and other responses, or a later start where there is but one. */
function otherLooks(view: BandView, space: SignalSpace, responses: readonly LowResponse[]): Look[] {
  const { band, signals } = view;
  const order = Math.max(space.order + 2, Math.round(MORE_DIMENSIONS * space.order));
  const higher = { poles: findPoles(space, order, band), weight: 0.5 };
  if (signals.length === 1) {
    const short = signals[0]!.subarray(0, Math.round(SHORTER * signals[0]!.length));
    const shorter = signalSpace([shiftedProducts(short)], short.length);
    const later = viewBand(responses, band, LATER_S);
    const spaces = later ? [shorter, spaceOf(later)] : [shorter];
    return [higher, ...spaces.map((one) => ({ poles: polesOf(one, band), weight: 0.5 }))];
  }
  // The grouped jackknife's variance: (g - 1) / g times the sum of squares.
  const groups = Math.min(MOST_GROUPS, signals.length);
  const weight = (groups - 1) / groups;
  const without = Array.from({ length: groups }, (_, group) =>
    polesOf(
      spaceOf(view, (k) => k % groups !== group),
      band,
    ),
  );
  return [higher, ...without.map((poles) => ({ poles, weight }))];
}

function spaceOf({ products, signals }: BandView, takes: (response: number) => boolean = () => true): SignalSpace {
  return signalSpace(
    products.filter((_, k) => takes(k)),
    signals[0]!.length,
  );
}

function polesOf(space: SignalSpace, band: SubBand): Pole[] {
  return findPoles(space, space.order, band);
}

function plausible(candidates: readonly Candidate[]): Candidate[] {
  const ringing = candidates.filter(
    (one) => qualityOf(one) >= LEAST_QUALITY && Math.max(...one.significances) >= LEAST_SIGNIFICANCE,
  );
  const strongest = Math.max(0, ...ringing.map(({ energy }) => energy));
  return ringing.filter(({ energy }) => energy >= LEAST_ENERGY * strongest);
}

function isInside({ frequencyHz }: Pole, { coreHz }: SubBand): boolean {
  return frequencyHz >= coreHz[0] && frequencyHz < coreHz[1];
}
