import type { Finding, Measurement, Results } from "../../model.js";
import { channelName, monitorName } from "../words/names.js";
import { closed, fixed, held, hertz, listed, withUncertainty } from "../../words/numbers.js";
import type { Mark, Statement } from "./section.js";

export interface RecordingsView {
  readonly summary: string;
  /** First what was wrong with files, and measurements to be used with care or not at all; then, folded, the sound ones. */
  readonly lists: readonly {
    readonly heading: string;
    readonly folded: boolean;
    readonly statements: readonly Statement[];
  }[];
}

/** Whether the recordings themselves can be used. */
export function recordingsView(results: Results): RecordingsView {
  const measurements = results.measurements.filter((measurement) => !measurement.derived);
  const verdictsOn = grouped(measurements).map((group) => statement(results, group));
  return {
    summary: held(summary(results)),
    lists: [
      {
        heading: "To be minded",
        folded: false,
        statements: [
          ...results.findings.filter(({ topic }) => topic === "recording").map(sessionFinding),
          ...verdictsOn.filter(({ mark }) => mark !== "usable"),
        ].map(onOneLine),
      },
      {
        heading: "Measurements that can be used as they are",
        folded: true,
        statements: verdictsOn.filter(({ mark }) => mark === "usable").map(onOneLine),
      },
    ].filter(({ statements }) => statements.length > 0),
  };
}

function onOneLine(statement: Statement): Statement {
  return {
    ...statement,
    text: held(statement.text),
    details: statement.details.map((one) => ({ ...one, text: held(one.text), remedy: held(one.remedy) })),
  };
}

function summary(results: Results): string {
  const measurements = results.measurements.filter((measurement) => !measurement.derived);
  const usable = measurements.filter((measurement) => measurement.quality.usable);
  const careful = usable.filter((measurement) => verdictOf(measurement) === "care").length;
  if (measurements.length === 0) return "No recording gave a measurement; what follows says why.";
  if (usable.length === 0) return "No measurement can be used; each says why.";
  const all = usable.length === measurements.length;
  const count = `${all ? "All" : `${usable.length} of`} ${measurements.length} measurements can be used`;
  const care = careful === 0 ? "" : `, ${careful === usable.length ? "all" : careful} of them with care`;
  return `${count}${care}.${validity(usable)}`;
}

function validity(usable: readonly Measurement[]): string {
  const ranges = usable.flatMap(({ response }) => (response.validHz ? [response.validHz] : []));
  if (ranges.length === 0) return "";
  const from = Math.max(...ranges.map(([low]) => low));
  const to = Math.min(...ranges.map(([, high]) => high));
  return from < to ? ` All the curves hold from ${hertz(from)} to ${hertz(to)}.` : "";
}

function verdictOf({ quality }: Measurement): keyof typeof verdicts {
  if (!quality.usable) return "refused";
  return quality.findings.some((finding) => finding.severity !== "info") ? "care" : "usable";
}

const verdicts = { usable: "usable", care: "usable with care", refused: "not usable" } as const;

/** Channels of one monitor at one place of which the same is said, but for the distance from the noise. */
function grouped(measurements: readonly Measurement[]): Measurement[][] {
  const groups = new Map<string, Measurement[]>();
  for (const measurement of measurements) {
    const { id, monitor, position, takes, quality } = measurement;
    const said = [drift(quality), repeatability(quality, takes), quality.signalToNoiseDb === null];
    const found = toldFindings(quality).map((finding) => [finding.severity, located(finding).replaceAll(id, "")]);
    const key = JSON.stringify([monitor, position, said, quality.usable, found]);
    const group = groups.get(key);
    if (group) group.push(measurement);
    else groups.set(key, [measurement]);
  }
  return [...groups.values()];
}

/** Findings that the sentence about the clock does not tell already. */
function toldFindings({ findings }: Measurement["quality"]): Finding[] {
  return findings.filter(({ code, severity }) => !(code === "clock-drift" && severity === "info"));
}

function statement(results: Results, group: readonly Measurement[]): Statement {
  const measurement = group[0]!;
  const { quality, takes, monitor, position } = measurement;
  const channels = listed(group.map((one) => channelName(one.channel, one.derived)));
  const mark = verdictOf(measurement);
  const parts = [signalToNoise(group), drift(quality), repeatability(quality, takes)];
  return {
    mark,
    verdict: verdicts[mark],
    subject: `${monitorName(results, monitor)}, ${channels}, at ${position}`,
    text: closed(parts.join("; ")),
    details: toldFindings(quality).map(detail),
  };
}

function signalToNoise(group: readonly Measurement[]): string {
  const levels = group.flatMap(({ quality }) => quality.signalToNoiseDb ?? []);
  if (levels.length === 0) return "the distance from the noise is not known";
  const ends = new Set([Math.min(...levels), Math.max(...levels)].map((level) => fixed(level, 0)));
  return `the sweep stands ${[...ends].join(" to ")} dB above the noise`;
}

function drift(quality: Measurement["quality"]): string {
  const { clockDriftPpm, clockDriftUncertaintyPpm, clockDriftCorrected } = quality;
  if (clockDriftPpm === null) return "clock drift is not known, since nothing was heard twice";
  const drift = withUncertainty(clockDriftPpm, clockDriftUncertaintyPpm, 1);
  return `clock drift ${drift} ppm${clockDriftCorrected ? ", corrected" : ""}`;
}

function repeatability({ repeatabilityDb }: Measurement["quality"], takes: number): string {
  if (takes < 2) return "one take, so repeatability is not known";
  const agreement = repeatabilityDb === null ? "" : ` that agree within ${fixed(repeatabilityDb, 2)} dB`;
  return `${takes} takes${agreement}`;
}

const findingMarks: Readonly<Record<Finding["severity"], Mark>> = { info: "note", warning: "care", reject: "refused" };
const findingVerdicts: Readonly<Record<Finding["severity"], string>> = {
  info: "note",
  warning: "take care",
  reject: "rejected",
};

function detail(finding: Finding): Statement["details"][number] {
  return { mark: findingMarks[finding.severity], text: located(finding), remedy: remedyOf(finding) };
}

function sessionFinding(finding: Finding): Statement {
  return {
    mark: findingMarks[finding.severity],
    verdict: findingVerdicts[finding.severity],
    subject: finding.recordings.length > 0 ? listed(finding.recordings) : "The session",
    text: located(finding),
    details: finding.remedy === null ? [] : [{ mark: "note", text: "", remedy: remedyOf(finding) }],
  };
}

function located({ message, atS, bandHz }: Finding): string {
  const places = [atS === null ? "" : `at ${fixed(atS, 2)} s`, bandHz === null ? "" : `near ${hertz(bandHz)}`];
  const place = places.filter((text) => text !== "" && !message.includes(text)).join(", ");
  return closed(place === "" ? message : `${message.replace(/\.$/, "")}, ${place}`);
}

function remedyOf({ remedy }: Finding): string {
  return remedy === null ? "" : closed(remedy);
}
