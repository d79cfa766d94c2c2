import { InputError } from "../errors.js";
import type { ChannelName, Finding } from "../model.js";
import { finding as newFinding } from "../schema/finding.js";

/** A clock error above this is a wrong sample rate, not drift. */
export const LARGEST_DRIFT_PPM = 500;
/** Under this the sweep hardly stands out of the room's noise. */
const LOW_SIGNAL_DB = 20;
/** Takes that differ so much outside the middle were not the same thing twice: a choice of ours. */
export const TAKES_DIFFER_DB = 2;
/** A block of the residual louder than the room by this is something that happened. Chance alone stays under 12 dB. */
const UNEXPLAINED_DB = 20;

/** A finding about a recording. */
function finding(parts: Partial<Finding> & Pick<Finding, "code" | "severity" | "message">): Finding {
  return newFinding({ topic: "recording", ...parts });
}

/** An input error that carries the code its finding will have. */
class Rejection extends InputError {
  readonly finding: Finding;
  constructor(found: Finding, where: string) {
    super(found.message, { where, remedy: found.remedy ?? "record it again" });
    this.finding = found;
  }
}

/** Any failure of one recording as a finding; errors that the user cannot mend pass through. */
export function fromError(error: unknown, file: string): Finding {
  if (error instanceof Rejection) return error.finding;
  if (error instanceof InputError) {
    return finding({
      code: "unreadable",
      severity: "reject",
      message: `${error.message} (${error.where})`,
      remedy: error.remedy,
      recordings: [file],
    });
  }
  throw error;
}

const seconds = (value: number): string => `${value.toFixed(value < 1 ? 2 : 1)} s`;

function rejection(
  file: string,
  code: string,
  message: string,
  remedy: string,
  more: Partial<Finding> = {},
): Rejection {
  return new Rejection(finding({ code, severity: "reject", message, remedy, recordings: [file], ...more }), file);
}

export const silent = (file: string): InputError =>
  rejection(
    file,
    "silent",
    "The recording is silent.",
    "check the microphone, its gain and the input that was recorded",
  );

export const clipped = (file: string, count: number): InputError =>
  rejection(
    file,
    "clipped",
    `The recording is clipped: ${count} samples at its ceiling.`,
    "lower the microphone's gain so that peaks stay near -6 dBFS, and record again",
    { value: count, unit: "samples", limit: 0 },
  );

export const wrongRate = (file: string, found: number, expected: number): InputError =>
  rejection(
    file,
    "sample-rate",
    `The recording is sampled at ${found} Hz, but the sweep at ${expected} Hz.`,
    `record at ${expected} Hz, or name the sweep made for ${found} Hz in session.json`,
    { value: found, unit: "Hz", limit: expected },
  );

export const noSweep = (file: string): InputError =>
  rejection(
    file,
    "no-sweep",
    "The session's sweep is not in the recording.",
    "check that this file is the right one and that it was recorded with the sweep that session.json names",
  );

export const wrongClock = (file: string, ppm: number): InputError =>
  rejection(
    file,
    "clock-rate",
    `The recorder ran ${Math.abs(ppm).toFixed(0)} ppm ${ppm > 0 ? "faster" : "slower"} than the player: a wrong sample rate, not drift${usualRatio(ppm)}.`,
    "set player and recorder to the same sample rate and the same clock, and record again",
    { value: ppm, unit: "ppm", limit: LARGEST_DRIFT_PPM },
  );

function usualRatio(ppm: number): string {
  const ratio = 1 + ppm * 1e-6;
  const usual = [
    { ratio: 1.001, name: "1.001, film pull-down" },
    { ratio: 1 / 1.001, name: "1/1.001, film pull-down" },
  ].find((one) => Math.abs(ratio / one.ratio - 1) < 2e-5);
  return usual ? ` (the ratio is ${usual.name})` : "";
}

export const startedLate = (file: string, channel: ChannelName, missingS: number): Finding =>
  finding({
    code: "started-late",
    severity: "reject",
    message: `The recording starts ${seconds(missingS)} after the ${channel} sweep has begun.`,
    remedy: "start the recorder first, then the sweep",
    value: missingS,
    unit: "s",
    limit: 0,
    recordings: [file],
  });

export const endedEarly = (file: string, channel: ChannelName, missingS: number): Finding =>
  finding({
    code: "ended-early",
    severity: "reject",
    message: `The recording ends ${seconds(missingS)} before the ${channel} sweep does.`,
    remedy: "let the recorder run until the second marker has sounded",
    value: missingS,
    unit: "s",
    limit: 0,
    recordings: [file],
  });

export const channelMissing = (file: string, channel: ChannelName): Finding =>
  finding({
    code: "no-sweep",
    severity: "reject",
    message: `The ${channel} sweep of the reel is not in the recording.`,
    remedy: `check that the ${channel} loudspeaker played and that the recording runs to the end of the reel`,
    recordings: [file],
  });

export const whichLoudspeaker = (file: string): InputError =>
  rejection(
    file,
    "which-loudspeaker",
    "One sweep of the reel is missing, and nothing tells which loudspeaker the other came from.",
    "check that both loudspeakers play and record the whole reel, with both of its markers; or record them one by one",
  );

export const shortTail = (file: string, channel: ChannelName, tailS: number, leastS: number): Finding =>
  finding({
    code: "short-tail",
    severity: "warning",
    message: `Only ${seconds(Math.max(0, tailS))} were recorded after the ${channel} sweep: low frequencies and decays are cut off.`,
    remedy: "let the recorder run until the end of the reel, or make the sweep with a longer gap",
    value: tailS,
    unit: "s",
    limit: leastS,
    recordings: [file],
  });

export const clockUnknown = (file: string): Finding =>
  finding({
    code: "clock-unknown",
    severity: "info",
    message: "The two markers were not both heard: clock drift and the arrival of left against right are not known.",
    remedy: "record the reel from before its first marker until after its second",
    recordings: [file],
  });

export const noiseUnknown = (file: string): Finding =>
  finding({
    code: "noise-unknown",
    severity: "info",
    message:
      "An impulse response says nothing of the noise it was recorded in: the uncertainty of levels is not known.",
    remedy: "record the sweep itself",
    recordings: [file],
  });

export const takesDiffer = (id: string, differenceDb: number, bandHz: number, files: string[]): Finding =>
  finding({
    code: "takes-differ",
    severity: "warning",
    message: `The takes of ${id} differ by ${differenceDb.toFixed(1)} dB near ${Math.round(bandHz)} Hz, though they agree in the middle.`,
    remedy: "look for what changed between the takes: a door, a filter, a switched loudspeaker, noise",
    value: differenceDb,
    unit: "dB",
    limit: TAKES_DIFFER_DB,
    bandHz,
    recordings: files,
  });

export const noLead = (file: string): Finding =>
  finding({
    code: "no-silence",
    severity: "warning",
    message:
      "There is no silence before the first sound, nor at the end: the room's noise, and so the uncertainty, is not known.",
    remedy: "start the recorder a second or more before the reel",
    recordings: [file],
  });

/** One error out of several findings of a recording of which nothing is left. */
export function asError(problems: readonly Finding[], file: string): InputError {
  const first = problems[0];
  if (!first) return noSweep(file);
  const message = problems.map((problem) => problem.message).join(" ");
  return new Rejection({ ...first, message }, file);
}

export const takeMisfits = (id: string, file: string, firstFile: string): Finding =>
  finding({
    code: "take-misfits",
    severity: "reject",
    message: `This take of ${id} was made with another sweep or sample rate than ${firstFile}: they cannot be averaged.`,
    remedy: "record all takes of one place with the same sweep, or give this one a position of its own",
    recordings: [file],
  });

export const positionMoved = (id: string, differenceDb: number, files: string[]): Finding =>
  finding({
    code: "position-moved",
    severity: "warning",
    message: `The takes of ${id} differ by ${differenceDb.toFixed(1)} dB in a third octave: levels are averaged as energy, time figures are the first take's.`,
    remedy: "leave the microphone and the gain alone between takes, or name the places as different positions",
    value: differenceDb,
    unit: "dB",
    limit: 0.5,
    recordings: files,
  });

export const lowSignal = (id: string, signalToNoiseDb: number, files: string[]): Finding | null =>
  signalToNoiseDb >= LOW_SIGNAL_DB
    ? null
    : finding({
        code: "low-signal",
        severity: "warning",
        message: `The sweep of ${id} is only ${signalToNoiseDb.toFixed(0)} dB above the room's noise.`,
        remedy: "play louder, within what ears and loudspeakers stand, or use a longer sweep",
        value: signalToNoiseDb,
        unit: "dB",
        limit: LOW_SIGNAL_DB,
        recordings: files,
      });

export const unexplained = (
  id: string,
  residual: { worstExcessDb: number | null; worstAtS: number | null; worstBandHz: number | null } | null,
  files: string[],
): Finding | null =>
  residual?.worstExcessDb == null || residual.worstExcessDb < UNEXPLAINED_DB
    ? null
    : finding({
        code: "not-explained",
        severity: "warning",
        message: `Something in the recording of ${id} is not the sweep: ${residual.worstExcessDb.toFixed(0)} dB over the room's noise near ${String(residual.worstBandHz)} Hz.`,
        remedy: "listen to the recording there (a knock, a dropout, processing?) and record again",
        value: residual.worstExcessDb,
        unit: "dB",
        limit: UNEXPLAINED_DB,
        atS: residual.worstAtS,
        bandHz: residual.worstBandHz,
        recordings: files,
      });

export const driftCorrected = (id: string, ppm: number, uncertaintyPpm: number, files: string[]): Finding =>
  finding({
    code: "clock-drift",
    severity: "info",
    message: `The recorder's clock ran ${ppm > 0 ? "fast" : "slow"} by ${Math.abs(ppm).toFixed(1)} ppm (uncertainty ${(2 * uncertaintyPpm).toPrecision(1)} ppm) in ${id}; corrected.`,
    value: ppm,
    unit: "ppm",
    recordings: files,
  });
