import type { Finding } from "../model.js";
import type { CheckedRecording, CheckedSession } from "../pipeline/check-recordings.js";
import { closed, fixed, listed } from "../words/numbers.js";

const SIDES = { L: "left", R: "right", both: "both at once" } as const;

/** One line for each recording: usable or not, why not, and what to do. */
export function verdictsInWords({ recordings, findings }: CheckedSession, strong: (text: string) => string): string {
  const width = Math.max(...recordings.map(({ recording }) => recording.file.length));
  const shared = new Set(recordings.flatMap((one) => one.findings.filter(isShared)));
  const lines = recordings.flatMap((one) => [
    `${markOf(one)} ${one.recording.file.padEnd(width)}  ${verdictOf(one)}`,
    ...one.findings.filter((finding) => !isShared(finding)).flatMap((finding) => reason(finding, "    ")),
  ]);
  const section = (heading: string, told: readonly Finding[]): string[] =>
    told.length === 0
      ? []
      : ["", strong(heading), ...told.flatMap((finding) => reason(finding, "  ", finding.recordings))];
  return [
    ...lines,
    ...section("Recordings held against each other", [...shared]),
    ...section("Not recorded, or not stated", findings),
    "",
    strong(countOf(recordings)),
  ].join("\n");
}

/** Marks that differ in shape; the word beside them says the same. */
function markOf({ usable, findings }: CheckedRecording): string {
  if (!usable) return "✗";
  return findings.some(({ severity }) => severity === "warning") ? "!" : "✓";
}

function verdictOf({ usable, channels, peakDbfs, signalToNoiseDb, findings }: CheckedRecording): string {
  const sides = listed(channels.map((channel) => SIDES[channel]));
  const facts = [
    ...(peakDbfs === null ? [] : [`peak ${fixed(peakDbfs, 1)} dBFS`]),
    ...(signalToNoiseDb === null ? [] : [`${fixed(signalToNoiseDb, 0)} dB over the noise`]),
  ].join(", ");
  if (!usable && channels.length > 0) return `usable in part: only ${sides}`;
  if (!usable)
    return findings.every(isShared) ? "not usable: see what is said of several recordings below" : "not usable";
  const but = findings.some(({ severity }) => severity === "warning") ? "usable, but see below" : "usable";
  return `${but}: ${sides}${facts === "" ? "" : `; ${facts}`}`;
}

function isShared({ recordings }: Finding): boolean {
  return recordings.length > 1;
}

function reason({ message, remedy }: Finding, indent: string, recordings: readonly string[] = []): string[] {
  const isNamed = recordings.length === 0 || recordings.every((file) => message.includes(file));
  const names = isNamed ? "" : `${listed(recordings)}: `;
  return [`${indent}${names}${closed(message)}`, ...(remedy === null ? [] : [`${indent}  try: ${remedy}`])];
}

function countOf(recordings: readonly CheckedRecording[]): string {
  const good = recordings.filter(({ usable }) => usable).length;
  if (recordings.length === 1)
    return good === 1 ? "The recording can be used." : "The recording cannot be used as it is.";
  if (good === recordings.length) return `All ${good} recordings can be used.`;
  return `${good} of ${recordings.length} recordings can be used.`;
}

/** The same for a program. */
export function verdictsForPrograms({ recordings, findings }: CheckedSession): object {
  return {
    recordings: recordings.map(({ recording, ...one }) => ({ file: recording.file, ...one })),
    findings,
  };
}
