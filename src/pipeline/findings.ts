import { InputError } from "../errors.js";
import type { Code, FactsOf } from "../findings/catalogue.js";
import { stated } from "../findings/stated.js";
import type { ChannelName, Finding } from "../model.js";
import { finding } from "../schema/finding.js";

/** A clock error above this is a wrong sample rate, not drift. */
export const LARGEST_DRIFT_PPM = 500;
/** Under this the sweep hardly stands out of the room's noise. */
const LOW_SIGNAL_DB = 20;
/** Takes that differ so much outside the middle were not the same thing twice: a choice of ours. */
export const TAKES_DIFFER_DB = 2;
/** A block of the residual louder than the room by this is something that happened. Chance alone stays under 12 dB. */
const UNEXPLAINED_DB = 20;

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
      topic: "recording",
      message: `${error.message} (${error.where})`,
      remedy: error.remedy,
      recordings: [file],
    });
  }
  throw error;
}

/** A finding about recordings. */
function about<C extends Code>(
  recordings: string[],
  severity: Finding["severity"],
  code: C,
  facts: FactsOf<C>,
  more: Partial<Finding> = {},
): Finding {
  return stated(code, facts, { severity, topic: "recording", recordings, ...more });
}

function rejection<C extends Code>(file: string, code: C, facts: FactsOf<C>, more: Partial<Finding> = {}): Rejection {
  return new Rejection(about([file], "reject", code, facts, more), file);
}

export const silent = (file: string): InputError => rejection(file, "silent", undefined);

export const clipped = (file: string, count: number): InputError =>
  rejection(file, "clipped", { count }, { value: count, unit: "samples", limit: 0 });

export const wrongRate = (file: string, foundHz: number, expectedHz: number): InputError =>
  rejection(file, "sample-rate", { foundHz, expectedHz }, { value: foundHz, unit: "Hz", limit: expectedHz });

export const noSweep = (file: string): InputError => rejection(file, "no-sweep", { channel: null });

export const wrongClock = (file: string, ppm: number): InputError =>
  rejection(
    file,
    "clock-rate",
    { ppm, usualRatio: usualRatio(ppm) },
    { value: ppm, unit: "ppm", limit: LARGEST_DRIFT_PPM },
  );

function usualRatio(ppm: number): string | null {
  const ratio = 1 + ppm * 1e-6;
  const usual = [
    { ratio: 1.001, name: "1.001, film pull-down" },
    { ratio: 1 / 1.001, name: "1/1.001, film pull-down" },
  ].find((one) => Math.abs(ratio / one.ratio - 1) < 2e-5);
  return usual?.name ?? null;
}

export const startedLate = (file: string, channel: ChannelName, missingS: number): Finding =>
  about([file], "reject", "started-late", { channel, missingS }, { value: missingS, unit: "s", limit: 0 });

export const endedEarly = (file: string, channel: ChannelName, missingS: number): Finding =>
  about([file], "reject", "ended-early", { channel, missingS }, { value: missingS, unit: "s", limit: 0 });

export const channelMissing = (file: string, channel: ChannelName): Finding =>
  about([file], "reject", "no-sweep", { channel });

export const whichLoudspeaker = (file: string): InputError => rejection(file, "which-loudspeaker", undefined);

export const shortTail = (file: string, channel: ChannelName, tailS: number, leastS: number): Finding =>
  about([file], "warning", "short-tail", { channel, tailS }, { value: tailS, unit: "s", limit: leastS });

export const clockUnknown = (file: string): Finding => about([file], "info", "clock-unknown", undefined);

export const noiseUnknown = (file: string): Finding => about([file], "info", "noise-unknown", undefined);

export const takesDiffer = (id: string, differenceDb: number, bandHz: number, files: string[]): Finding =>
  about(
    files,
    "warning",
    "takes-differ",
    { id, differenceDb, bandHz },
    { value: differenceDb, unit: "dB", limit: TAKES_DIFFER_DB, bandHz },
  );

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

export const positionMoved = (id: string, differenceDb: number, files: string[]): Finding =>
  about(files, "warning", "position-moved", { id, differenceDb }, { value: differenceDb, unit: "dB", limit: 0.5 });

export const lowSignal = (id: string, signalToNoiseDb: number, files: string[]): Finding | null =>
  signalToNoiseDb >= LOW_SIGNAL_DB
    ? null
    : about(
        files,
        "warning",
        "low-signal",
        { id, signalToNoiseDb },
        { value: signalToNoiseDb, unit: "dB", limit: LOW_SIGNAL_DB },
      );

export const unexplained = (
  id: string,
  residual: { worstExcessDb: number | null; worstAtS: number | null; worstBandHz: number | null } | null,
  files: string[],
): Finding | null => {
  const excessDb = residual?.worstExcessDb ?? null;
  if (residual === null || excessDb === null || excessDb < UNEXPLAINED_DB) return null;
  const { worstAtS: atS, worstBandHz: bandHz } = residual;
  const parts = { value: excessDb, unit: "dB", limit: UNEXPLAINED_DB, atS, bandHz };
  return about(files, "warning", "not-explained", { id, excessDb, bandHz }, parts);
};

export const driftCorrected = (id: string, ppm: number, uncertaintyPpm: number, files: string[]): Finding =>
  about(
    files,
    "info",
    "clock-drift",
    { id, ppm, uncertaintyPpm },
    { value: ppm, uncertainty: 2 * uncertaintyPpm, unit: "ppm" },
  );
