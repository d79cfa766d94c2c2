import type { Finding, Measurement, MonitorResult, Results } from "../model.js";
import type { Analysis } from "../pipeline.js";
import { closed, fixed, listed } from "../words/numbers.js";

const headings: readonly (readonly [Finding["topic"], string])[] = [
  ["trust", "What to trust"],
  ["mend", "What to mend"],
  ["unknown", "What was not measured well enough to say"],
];

/** The report in a few lines, for whoever stands at the terminal: the same findings in the same order. */
export function summaryInWords({ results, rejected }: Analysis, strong: (text: string) => string): string {
  const lines = [strong(results.session.title ?? "Session")];
  for (const [topic, heading] of headings) {
    const found = results.findings.filter((finding) => finding.topic === topic);
    if (found.length > 0) lines.push("", strong(heading), ...found.flatMap(findingLines));
  }
  lines.push("", strong("The recordings"));
  for (const monitor of results.monitors) lines.push(monitorLine(monitor, results));
  for (const { severity, topic, message, remedy } of results.findings) {
    if (topic === "recording" && severity === "warning") lines.push(...indented("Note", message, remedy));
  }
  if (rejected.length > 0) {
    const files = new Set(rejected.flatMap(({ recordings }) => recordings)).size;
    lines.push("", strong(files === 1 ? "One recording was rejected" : `${files} recordings were rejected`));
    for (const finding of rejected)
      lines.push(...indented(finding.recordings.join(", "), finding.message, finding.remedy));
  }
  lines.push("");
  return lines.join("\n");
}

function findingLines({ message, remedy }: Finding): string[] {
  return [`  ${closed(message)}`, ...tried(remedy)];
}

function tried(remedy: string | null): string[] {
  return remedy === null ? [] : [`    try: ${remedy}`];
}

function monitorLine(monitor: MonitorResult, results: Results): string {
  const name = monitor.name === null ? monitor.id : `${monitor.id} (${monitor.name})`;
  const own = measurementsOf(monitor, results);
  if (own.length === 0) return `  ${name}: not measured.`;
  const unusable = own.filter(({ quality }) => !quality.usable).map(({ id }) => id);
  const verdict = unusable.length === 0 ? "usable" : `not usable: ${listed(unusable)}`;
  return `  ${name}: ${[verdict, ringing(monitor, results)].join("; ")}.`;
}
/** The decay at the mix position, where there is one, as the range over the channels. */
function ringing(monitor: MonitorResult, results: Results): string {
  const times = atMix(monitor, results).flatMap(({ reverberation }) => reverberation.tMidS ?? []);
  if (times.length === 0) return "T mid not known";
  const [least, most] = [Math.min(...times), Math.max(...times)].map((time) => fixed(time, 2));
  return `T mid ${least === most ? "" : `${String(least)} to `}${String(most)} s at this position`;
}

function measurementsOf(monitor: MonitorResult, results: Results): Measurement[] {
  return results.measurements.filter((one) => one.monitor === monitor.id && !one.derived);
}

function atMix(monitor: MonitorResult, results: Results): Measurement[] {
  const mix = results.session.positions.find(({ kind }) => kind === "mix")?.id;
  const own = measurementsOf(monitor, results);
  const there = own.filter(({ position }) => position === mix);
  return there.length > 0 ? there : own;
}

function indented(head: string, message: string, remedy: string | null): string[] {
  return [`  ${head}: ${closed(message)}`, ...tried(remedy)];
}

/** The same for a program. */
export function summaryForPrograms({ results, rejected }: Analysis, out: string): object {
  return {
    out,
    report: "report.html",
    results: "results.json",
    monitors: results.monitors.map((monitor) => ({
      id: monitor.id,
      usable:
        measurementsOf(monitor, results).length > 0 && measurementsOf(monitor, results).every((m) => m.quality.usable),
      extension: monitor.extension,
      measurements: measurementsOf(monitor, results).map(({ id, quality, reverberation }) => ({
        id,
        usable: quality.usable,
        tMidS: reverberation.tMidS,
      })),
    })),
    findings: results.findings,
    rejected: [...new Set(rejected.flatMap((finding: Finding) => finding.recordings))],
  };
}
