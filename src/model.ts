/** The nouns of the flow, top to bottom as the data goes. */

export type { ChannelName, Recording, Session } from "./schema/session.js";
export type { SampleFormat, SweepRecipe } from "./schema/sweep-recipe.js";
export type { AverageResponse, Response } from "./schema/results/response.js";
export type { BandMetrics } from "./schema/results/band.js";
export type { Background, Distortion, EnergyTime, Measurement, Reflection } from "./schema/results/measurement.js";
export type { TargetResult } from "./schema/results/target.js";
export type { Check } from "./schema/results/check.js";
export type { MonitorResult } from "./schema/results/monitor.js";
export type { Finding } from "./schema/finding.js";
export type { Results, Translation } from "./schema/results.js";

export type {
  DoubleSlopeResult,
  FlutterResult,
  MeasurementSurfaces,
  SurfaceDips,
  Surfaces,
} from "./schema/room-surfaces.js";
export type { Measure, PorousDepth, Treatment, TreatedProblem, TrustGain } from "./schema/treatment.js";
export type { MeasuredMode, Mode, PredictedMode, RingMap, RoomModes } from "./schema/room-modes.js";

/** A file's sound: one array per channel, full scale is 1. */
export interface DecodedAudio {
  readonly sampleRate: number;
  readonly channels: readonly Float32Array[];
  /** As the file stores it, for people: "24-bit PCM", "32-bit float". */
  readonly encoding: string;
}

/** One channel of sound; full scale is 1 unless said otherwise. */
export interface Signal {
  readonly samples: Float32Array | Float64Array;
  readonly sampleRate: number;
}

/** A microphone's deviation from flat: positive where it reads too high. Frequencies rise strictly. */
export interface MicrophoneCalibration {
  readonly frequencyHz: readonly number[];
  readonly levelDb: readonly number[];
}

/**
 * Power of the recording's noise as it appears in the impulse response: the expected squared magnitude of the noise's
 * spectrum per second of impulse response looked at, on rising frequencies.
 */
export interface NoiseSpectrum {
  readonly frequencyHz: Float64Array;
  readonly powerPerSecond: Float64Array;
}

/** How one channel of one monitor answers at one place. */
export interface ImpulseResponse {
  /** Linear amplitude: recorded full scale per played full scale. */
  readonly samples: Float64Array;
  readonly sampleRate: number;
  /** Index in `samples` of the direct sound's arrival, with its fraction. */
  readonly arrivalSample: number;
  readonly polarity: 1 | -1;
  /** The band in which the excitation carried energy. */
  readonly sweptHz: readonly [number, number];
  readonly noise: NoiseSpectrum | null;
}

/** The response of one harmonic, as the deconvolution separates it. */
export interface HarmonicResponse {
  readonly order: number;
  /** On the scale of the linear response. */
  readonly samples: Float64Array;
  readonly sampleRate: number;
  readonly arrivalSample: number;
  /** Time to the next higher harmonic's response. */
  readonly gapS: number;
}
