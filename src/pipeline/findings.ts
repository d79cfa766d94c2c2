import { InputError } from "../errors.js";
import type { Code, FactsOf } from "../findings/catalogue.js";
import { stated } from "../findings/stated.js";
import type { LevelCeiling } from "../impulse/level-ceiling.js";
import { nearestUsual } from "../impulse/usual-ratios.js";
import type { ChannelName, Finding, Recording } from "../model.js";
import { finding } from "../schema/finding.js";

/** A clock error above this is a wrong sample rate, not drift. */
export const LARGEST_DRIFT_PPM = 500;
/** Takes that differ so much outside the middle were not the same thing twice: a choice of ours. */
export const TAKES_DIFFER_DB = 2;
/** An input error that carries the code its finding will have. */
class Rejection extends InputError {
  readonly finding: Finding;
  constructor(found: Finding, where: string) {
    super(found.message, { where, remedy: found.remedy ?? "record it again", code: found.code });
    this.finding = found;
  }
}

/** Any failure of one recording as a finding; errors that the user cannot mend pass through. */
export function fromError(error: unknown, file: string): Finding {
  if (error instanceof Rejection) return error.finding;
  if (error instanceof InputError) {
    return finding({
      code: error.code ?? "unreadable",
      severity: "reject",
      topic: "recording",
      message: error.where === file ? error.message : `${error.message.replace(/\.$/, "")} (${error.where}).`,
      remedy: error.remedy,
      recordings: [file],
    });
  }
  throw error;
}

/** A finding about recordings. */
export function about<C extends Code>(
  recordings: string[],
  severity: Finding["severity"],
  code: C,
  facts: FactsOf<C>,
  more: Partial<Finding> = {},
): Finding {
  return stated(code, facts, { severity, topic: "recording", recordings, ...more });
}

/** A finding for which a recording is refused. */
export function rejection<C extends Code>(
  file: string,
  code: C,
  facts: FactsOf<C>,
  more: Partial<Finding> = {},
): Rejection {
  return new Rejection(about([file], "reject", code, facts, more), file);
}

export const silent = (file: string): InputError => rejection(file, "silent", undefined);

export const clipped = (file: string, count: number): InputError =>
  rejection(file, "clipped", { count }, { value: count, unit: "samples", limit: 0 });

/** Cut off before something rounded the edges. */
export const atCeiling = (file: string, { crests, levelDbfs }: LevelCeiling): InputError =>
  rejection(file, "clipped", { crests, levelDbfs }, { value: levelDbfs, unit: "dBFS" });

export const wrongRate = (file: string, foundHz: number, expectedHz: number): InputError =>
  rejection(file, "sample-rate", { foundHz, expectedHz }, { value: foundHz, unit: "Hz", limit: expectedHz });

export const noSweep = (file: string): InputError => rejection(file, "no-sweep", { channel: null });

/**
 * Longer or shorter than what was played by a ratio that no drift explains.
 *
 * @param within - how well the ratio is known; a usual one so near is named
 */
export const rateMismatch = (file: string, ratio: number, sampleRate: number, within = 2e-5): InputError => {
  const usual = nearestUsual(ratio, sampleRate, within)?.name ?? null;
  return rejection(file, "rate-mismatch", { ratio, usual }, { value: ratio, limit: 1 + LARGEST_DRIFT_PPM * 1e-6 });
};

/** The file's header names another rate than its sound has. */
export const wrongHeader = (file: string, saysHz: number, isHz: number): InputError =>
  rejection(file, "rate-mismatch", { saysHz, isHz }, { value: saysHz, unit: "Hz", limit: isHz });

export const wrongSweep = (file: string, facts: FactsOf<"wrong-sweep">): InputError =>
  rejection(file, "wrong-sweep", facts);

export const moreSweeps = (file: string, count: number): Finding =>
  about([file], "info", "more-sweeps", { count }, { value: count });

export const startedLate = (file: string, channel: ChannelName | null, missingS: number): Finding =>
  about([file], "reject", "started-late", { channel, missingS }, { value: missingS, unit: "s", limit: 0 });

export const endedEarly = (file: string, channel: ChannelName | null, missingS: number): Finding =>
  about([file], "reject", "ended-early", { channel, missingS }, { value: missingS, unit: "s", limit: 0 });

/** All of the sweep was recorded, but not how the room falls silent after it. */
export const endedSoon = (file: string, channel: ChannelName, tailS: number, leastS: number): Finding =>
  about([file], "warning", "ended-early", { channel, missingS: -tailS }, { value: -tailS, unit: "s", limit: -leastS });

export const channelMissing = (file: string, channel: ChannelName): Finding =>
  about([file], "reject", "no-sweep", { channel });

export const whichLoudspeaker = (file: string): InputError => rejection(file, "which-loudspeaker", undefined);

export const shortTail = (file: string, channel: ChannelName, tailS: number, leastS: number): Finding =>
  about([file], "warning", "short-tail", { channel, tailS }, { value: tailS, unit: "s", limit: leastS });

export const clockUnknown = (file: string): Finding => about([file], "info", "clock-unknown", undefined);

export const noiseUnknown = (file: string): Finding => about([file], "info", "noise-unknown", undefined);

export const takesDiffer = (
  id: string,
  differenceDb: number,
  bandHz: number,
  averaged: boolean,
  files: string[],
): Finding =>
  about(
    files,
    "warning",
    "takes-differ",
    { id, differenceDb, bandHz, averaged },
    { value: differenceDb, unit: "dB", limit: TAKES_DIFFER_DB, bandHz },
  );

export const gainChanged = (id: string, differenceDb: number, files: string[]): Finding =>
  about(files, "warning", "gain-changed", { id, differenceDb }, { value: differenceDb, unit: "dB", limit: 0.5 });

export const noLead = (file: string): Finding => about([file], "warning", "no-silence", undefined);

/** One error out of several findings of a recording of which nothing is left. */
export function asError(problems: readonly Finding[], file: string): InputError {
  const first = problems[0];
  if (!first) return noSweep(file);
  const message = problems.map((problem) => problem.message).join(" ");
  return new Rejection({ ...first, message }, file);
}

export const takeMisfits = (id: string, file: string, firstFile: string): Finding =>
  about([file], "reject", "take-misfits", { id, firstFile });

export const positionMoved = (
  id: string,
  [leastM, mostM]: readonly [number, number],
  limitM: number,
  files: string[],
): Finding =>
  about(files, "warning", "position-moved", { id, leastM, mostM }, { value: leastM, unit: "m", limit: limitM });

export const driftCorrected = (id: string, ppm: number, uncertaintyPpm: number, files: string[]): Finding =>
  about(
    files,
    "info",
    "clock-drift",
    { id, ppm, uncertaintyPpm },
    { value: ppm, uncertainty: 2 * uncertaintyPpm, unit: "ppm" },
  );

export const lengthFromFile = (file: string, durationS: number): Finding =>
  about([file], "info", "length-from-file", { durationS }, { value: durationS, unit: "s" });

export const longRecording = (file: string, durationS: number, heardAtS: number): Finding =>
  about([file], "info", "long-recording", { durationS, heardAtS }, { value: durationS, unit: "s", atS: heardAtS });

export const severalReels = (file: string, heardAtS: readonly number[]): Finding =>
  about(
    [file],
    "warning",
    "several-reels",
    { heardAtS },
    { value: heardAtS.length, unit: "times", limit: 1, atS: heardAtS[1] ?? null },
  );

/** Two entries of one recording; as takes of the same the later is left out, as different things both are. */
export const duplicateTake = (first: Recording, second: Recording, gainDb: number, isRepeat: boolean): Finding =>
  about(
    isRepeat ? [second.file] : [first.file, second.file],
    "reject",
    "duplicate-take",
    { first: first.file, second: second.file, gainDb, isRepeat },
    { value: gainDb, unit: "dB" },
  );

export const bothSpeakers = (
  severity: "info" | "warning",
  monitor: string,
  differenceDb: number,
  limitDb: number,
  files: string[],
): Finding =>
  about(
    files,
    severity,
    "both-speakers",
    { monitor, differenceDb, isOneBox: severity === "info" },
    { value: differenceDb, unit: "dB", limit: limitDb, monitors: [monitor], channels: ["L", "R"] },
  );

/** A centre that cancels is heard by everybody. */
const CANCELS = 20;

export const sidesInverted = (monitor: string, files: string[]): Finding =>
  about(
    files,
    "warning",
    "polarity-inverted",
    { is: "sides", monitor },
    { topic: "mend", monitors: [monitor], channels: ["L", "R"], audibility: CANCELS },
  );

export const monitorsInverted = (monitors: string[], others: string[], files: string[]): Finding =>
  about(files, "warning", "polarity-inverted", { is: "monitors", monitors, others }, { topic: "mend", monitors });

export const chainInverted = (monitor: string, files: string[]): Finding =>
  about(files, "info", "polarity-inverted", { is: "absolute", monitor }, { monitors: [monitor] });

export const channelsSwapped = (monitor: string, ratio: number, limit: number, files: string[]): Finding =>
  about(
    files,
    "warning",
    "channels-swapped",
    { monitor },
    { value: ratio, limit, monitors: [monitor], channels: ["L", "R"] },
  );
