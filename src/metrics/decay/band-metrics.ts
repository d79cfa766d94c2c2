import { bandFilter } from "../../dsp/band-filter.js";
import type { BandMetrics, ImpulseResponse } from "../../model.js";
import { type Band, bandEdges } from "../../standards/iec61260.js";
import {
  CURVATURE_LIMIT_PERCENT,
  curvaturePercent,
  EARLY_S,
  EVALUATION_DB,
  LEAST_BANDWIDTH_TIME,
  NON_LINEARITY_LIMIT_PER_MILLE,
  REQUIRED_RANGE_DB,
} from "../../standards/iso3382.js";
import { type BandDecay, bandDecay, filteredEnergy, peakOverNoiseDb } from "./band-decay.js";
import { clarity, clarityUncertainty, definition } from "./clarity.js";
import { type DecayTime, decayTime } from "./decay-time.js";
import { decayUncertainty } from "./decay-uncertainty.js";
import { CLIFF_S, levelAfterCliff } from "./direct-fall.js";
import { bandCentreTime, earlyLate } from "./early-late.js";
import { type SplitSpectra, splitSpectra, wholeSpectrum, type WholeSpectrum } from "./split-spectra.js";

/** What a band's decay tells; its levels are found elsewhere. */
export type DecayMetrics = Omit<BandMetrics, "levelDb" | "levelUncertaintyDb" | "noiseDb">;

const LIMITS_S = [EARLY_S.c50, EARLY_S.c80, CLIFF_S];
/** The late decay is read over 20 dB, from 5 dB below the level after the direct sound's fall, with 10 dB to spare. */
const LATE_FROM_DB = 5;
const LATE_SPAN_DB = 20;
const LATE_SPARE_DB = 10;

/** A decay that starts so far over the noise has the 35 dB of T20, and 10 to spare. A choice of ours. */
const DIRECT_ONLY_DB = REQUIRED_RANGE_DB.t20 + 10;

/**
 * Measures decay and clarity of an impulse response in fractional-octave bands.
 *
 * Results hold at this position; ISO 3382-2 grades need several. Time zero is `arrivalSample`: nothing before
 * it counts. Filters are class 1, time-reversed; clarity is split first and filtered after; decays are cut at the knee with the
 * noise, the noise subtracted and the part cut off added. Where the direct sound makes a cliff there is no EDT, but a late decay.
 *
 * @param impulse - its noise spectrum is not used: noise is judged in the response's own tail
 * @param bands - any; one whose edges leave the swept range or half the sample rate is flagged `outside-swept-range`
 * @returns one entry per band, in order; a value that cannot be known is null and a flag says why
 * @remarks Source: ISO 3382-1:2009, ISO 3382-2:2008; truncation: see `truncateDecay`; reversed filter: see `bandSignal`.
 */
export function bandMetrics(impulse: ImpulseResponse, bands: readonly Band[]): DecayMetrics[] {
  const spectra = splitSpectra(impulse, LIMITS_S);
  return bands.map((band) => {
    if (!isInside(impulse, band)) return { ...unknownDecay(band), flags: ["outside-swept-range"] };
    const decay = spectra && bandDecay(spectra, bandFilter(band));
    return decay ? measureBand(band, spectra, decay) : { ...unknownDecay(band), flags: [whyNoDecay(spectra, band)] };
  });
}

/** How far each band's decay can be followed, dB, with the flags that say what is in the way. */
export function decayRanges(
  impulse: ImpulseResponse,
  bands: readonly Band[],
): Pick<DecayMetrics, "decayRangeDb" | "flags">[] {
  const spectrum = wholeSpectrum(impulse);
  return bands.map((band) => {
    if (!isInside(impulse, band)) return { decayRangeDb: null, flags: ["outside-swept-range"] };
    const decay = spectrum && bandDecay(spectrum, bandFilter(band));
    if (!decay) return { decayRangeDb: null, flags: [whyNoDecay(spectrum, band)] };
    return { decayRangeDb: decay.rangeDb, flags: flagsOf({ "direct-sound-only": isDirectOnly(decay) }) };
  });
}

/** Noise hides it, or nothing follows the direct sound. */
function whyNoDecay(spectrum: WholeSpectrum | null, band: Band): "no-decay" | "direct-sound-only" {
  const energy = spectrum && filteredEnergy(spectrum, bandFilter(band))?.energy;
  return energy && peakOverNoiseDb(energy) > DIRECT_ONLY_DB ? "direct-sound-only" : "no-decay";
}

/** Too little decay, though the sound stands out of the noise by more than T20 would need: there is hardly a room. */
function isDirectOnly({ rangeDb, energy }: BandDecay): boolean {
  return rangeDb < REQUIRED_RANGE_DB.t20 && peakOverNoiseDb(energy) > DIRECT_ONLY_DB;
}

/** Whether all of a band was swept. */
function isInside({ sweptHz: [lowHz, highHz], sampleRate }: ImpulseResponse, band: Band): boolean {
  const [from, to] = bandEdges(band);
  // Edges are irrational numbers: a range that was meant to be one must not lose its band to rounding.
  return from >= lowHz * (1 - 1e-9) && to <= Math.min(highHz, sampleRate / 2) * (1 + 1e-9);
}

function measureBand(band: Band, spectra: SplitSpectra, decay: BandDecay): DecayMetrics {
  const { bandwidthHz } = bandFilter(band);
  const [split50, split80, splitDirect] = spectra.splits;
  const afterCliffDb = levelAfterCliff(decay, splitDirect!, bandwidthHz);
  // On a cliff one sample more or less before the direct sound makes it twice or half of what it was.
  const edt = afterCliffDb === null ? evaluate(decay, "edt") : null;
  const t20 = evaluate(decay, "t20");
  const t30 = evaluate(decay, "t30");
  const late = afterCliffDb === null ? null : lateTime(decay, afterCliffDb);
  const evaluated = t30 ?? t20;
  const at50 = earlyLate(decay, split50!, bandwidthHz);
  const at80 = earlyLate(decay, split80!, bandwidthHz);
  const curvature = t20 && t30 ? curvaturePercent(t20.timeS, t30.timeS) : null;
  const roomS = (late ?? evaluated ?? edt)?.timeS ?? null;
  const nonLinearity = evaluated?.nonLinearityPerMille ?? null;
  return {
    fraction: band.fraction,
    nominalHz: band.nominalHz,
    exactHz: band.exactHz,
    edtS: edt?.timeS ?? null,
    t20S: t20?.timeS ?? null,
    t30S: t30?.timeS ?? null,
    lateS: late?.timeS ?? null,
    c50Db: at50 && clarity(at50.early, at50.late),
    c80Db: at80 && clarity(at80.early, at80.late),
    d50: at50 && definition(at50.early, at50.late),
    tsS: bandCentreTime(decay, spectra, bandwidthHz),
    c50UncertaintyDb: at50 && clarityUncertainty(at50.earlyDoubt, at50.lateDoubt),
    c80UncertaintyDb: at80 && clarityUncertainty(at80.earlyDoubt, at80.lateDoubt),
    decayRangeDb: decay.rangeDb,
    nonLinearityPerMille: nonLinearity,
    curvaturePercent: curvature,
    decayUncertaintyS:
      evaluated && decayUncertainty(decay, bandwidthHz, evaluated.timeS, t30 ? EVALUATION_DB.t30 : EVALUATION_DB.t20),
    edtUncertaintyS: edt && decayUncertainty(decay, bandwidthHz, edt.timeS, EVALUATION_DB.edt),
    lateUncertaintyS:
      afterCliffDb === null ? null : late && decayUncertainty(decay, bandwidthHz, late.timeS, lateRange(afterCliffDb)),
    flags: flagsOf({
      "edt-range-too-small": decay.rangeDb < REQUIRED_RANGE_DB.edt,
      "t20-range-too-small": !t20,
      "t30-range-too-small": !t30,
      "filter-limited": roomS !== null && bandwidthHz * roomS <= LEAST_BANDWIDTH_TIME.reversed,
      "direct-dominated": afterCliffDb !== null,
      "late-range-too-small": afterCliffDb !== null && !late,
      "direct-sound-only": isDirectOnly(decay),
      "not-straight": (nonLinearity ?? 0) > NON_LINEARITY_LIMIT_PER_MILLE,
      curved: (curvature ?? 0) > CURVATURE_LIMIT_PERCENT,
      "clarity-below-noise": !at50 || !at80,
    }),
  };
}

function evaluate(decay: BandDecay, kind: keyof typeof EVALUATION_DB): DecayTime | null {
  if (decay.rangeDb < REQUIRED_RANGE_DB[kind]) return null;
  return decayTime(decay.curve, decay.stepS, EVALUATION_DB[kind].from, EVALUATION_DB[kind].to);
}

function lateTime(decay: BandDecay, afterCliffDb: number): DecayTime | null {
  const { from, to } = lateRange(afterCliffDb);
  return decay.rangeDb >= LATE_SPARE_DB - to ? decayTime(decay.curve, decay.stepS, from, to) : null;
}

function lateRange(afterCliffDb: number): { from: number; to: number } {
  const from = afterCliffDb - LATE_FROM_DB;
  return { from, to: from - LATE_SPAN_DB };
}

function flagsOf(conditions: Readonly<Record<string, boolean>>): string[] {
  return Object.keys(conditions).filter((flag) => conditions[flag]);
}

/** A band of which nothing is known. */
export function unknownDecay({ fraction, nominalHz, exactHz }: Band): Omit<DecayMetrics, "flags"> {
  return {
    fraction,
    nominalHz,
    exactHz,
    edtS: null,
    t20S: null,
    t30S: null,
    lateS: null,
    c50Db: null,
    c80Db: null,
    d50: null,
    tsS: null,
    c50UncertaintyDb: null,
    c80UncertaintyDb: null,
    decayRangeDb: null,
    nonLinearityPerMille: null,
    curvaturePercent: null,
    decayUncertaintyS: null,
    edtUncertaintyS: null,
    lateUncertaintyS: null,
  };
}
