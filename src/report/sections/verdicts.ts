import type { Finding, Measurement, Results } from "../../model.js";
import { channelName, monitorName } from "../words/names.js";
import { closed, fixed, hertz, listed, withUncertainty } from "../words/numbers.js";
import type { Block, Mark, Section, Statement } from "./section.js";

/** What the data can carry, in words, before anything is drawn. */
export function verdictSection(results: Results): Section {
  const statements = grouped(results.measurements.filter((measurement) => !measurement.derived)).map((group) =>
    statement(results, group),
  );
  const blocks: Block[] = [
    { kind: "prose", text: summary(results) },
    { kind: "list", items: limits(results) },
    { kind: "statements", statements },
  ];
  if (results.findings.length > 0) {
    blocks.push({ kind: "statements", statements: results.findings.map(sessionFinding) });
  }
  return { id: "verdicts", heading: "What this report can say", blocks };
}

function summary(results: Results): string {
  const measurements = results.measurements.filter((measurement) => !measurement.derived);
  const usable = measurements.filter((measurement) => measurement.quality.usable);
  const careful = usable.filter((measurement) => verdictOf(measurement) === "care").length;
  if (measurements.length === 0) return "No recording gave a measurement; the findings below say why.";
  if (usable.length === 0) return "No measurement can be used; each says why below.";
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

/** What follows from how the session was made, whatever it sounds like. */
function limits(results: Results): string[] {
  const { measurements, comparisons, monitors } = results;
  const items: string[] = [];
  const places = new Set(measurements.map((measurement) => measurement.position)).size;
  if (places === 1) {
    items.push(
      "One microphone place was measured. Above about 2 kHz a few centimetres change the curve: read one place there as detail, not as a verdict on tone.",
    );
  } else if (places > 1) items.push(`${places} microphone places were measured; plots show the mix position.`);
  if (measurements.some((measurement) => measurement.levelReference === "transfer")) {
    items.push("Levels are relative: without a calibrator recording no figure here is a sound pressure level.");
  }
  if (comparisons.some((comparison) => comparison.includesGain) || monitors.some((m) => m.leftRight?.includesGain)) {
    items.push(
      "The input gain is not stated to have stayed fixed: differences in level between recordings may be differences in gain. Shapes are not touched by this.",
    );
  }
  if (measurements.some((measurement) => measurement.derived)) {
    items.push(
      "The phantom centre is the sum of left and right, computed from one recording; it stands up to 500 Hz and is no better than its two sides.",
    );
  }
  if (measurements.length > 0 && measurements.every((measurement) => measurement.arrival.timeS === null)) {
    items.push("Times of flight are not known, since no loopback was recorded: only differences in arrival are.");
  }
  return items;
}

function verdictOf({ quality }: Measurement): Mark {
  if (!quality.usable) return "refused";
  return quality.findings.some((finding) => finding.severity !== "info") ? "care" : "usable";
}

const verdicts: Readonly<Record<Mark, string>> = {
  usable: "usable",
  care: "usable with care",
  refused: "not usable",
  note: "note",
};

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
