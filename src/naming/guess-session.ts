import type { Session } from "../model.js";
import { divideUnknown } from "./divide-unknown.js";
import { type Evidence, evidenceOf } from "./evidence.js";
import { few } from "./few.js";
import { type NamedMonitor, monitorOfName } from "./monitor-of-name.js";
import { monitorsOfNames } from "./monitors-of-names.js";
import { type NamePart, partsOfName } from "./parts-of-name.js";
import { type Holds, placeOfName, type ReadName } from "./place-of-name.js";
import type { Role } from "./vocabulary.js";
import { placesOfNames } from "./places-of-names.js";

/** A recording with what its content says. */
export interface HeardFile {
  readonly file: string;
  readonly holds: Holds;
}

interface GuessedRecording {
  readonly file: string;
  readonly monitor: string;
  readonly position: string;
  readonly take: number;
  readonly channel: "L" | "R" | "both" | null;
  /** What each word was taken for, in the order of the name. */
  readonly words: readonly Evidence[];
}

export interface Guess {
  readonly monitors: Session["monitors"];
  readonly positions: Session["positions"];
  readonly recordings: readonly GuessedRecording[];
  /** Recordings of which something is not known that has to be. */
  readonly unplaced: readonly { readonly file: string; readonly reason: string; readonly remedy: string }[];
  /** What could not be told, and what to edit. */
  readonly doubts: readonly string[];
}

/** Boxes that sound as one, whichever channel is played. */
const ONE_BOX: readonly (Role | null)[] = ["phone", "laptop", "tv", "car", "headphone"];

interface Named {
  readonly file: HeardFile;
  readonly parts: readonly NamePart[];
  readonly monitor: NamedMonitor;
  readonly read: ReadName;
}

/** Guesses a session from the names of its recordings; where a name contradicts the content, the content holds. */
export function guessSession(files: readonly HeardFile[]): Guess {
  const parts = files.map(({ file }) => partsOfName(file));
  const belongs = divideUnknown(parts);
  const names = files.map((file, n): Named => ({
    file,
    parts: parts[n]!,
    monitor: monitorOfName(parts[n]!, belongs[n]!),
    read: placeOfName(parts[n]!, belongs[n]!, file.holds),
  }));
  const doubts: string[] = [];
  const monitors = monitorsOfNames(names.map(({ monitor }) => monitor));
  const places = placesOfNames(names.map(({ read }) => read.place));
  const unplaced: { file: string; reason: string; remedy: string }[] = [];
  const recordings: GuessedRecording[] = [];
  const taken = new Set<string>();
  for (const [n, one] of names.entries()) {
    const { file, read } = one;
    const monitor = monitors.idOf(one.monitor);
    const position = places.idOf(read.place);
    const channel = channelOf(one, names);
    if (channel === "unknown") {
      unplaced.push({
        file: file.file,
        reason: "it holds one sweep, and its name does not say of which side",
        remedy: 'put L or R into its name, or add it with "channel": "L" or "R"',
      });
      continue;
    }
    if (read.contradiction !== null) doubts.push(`${file.file}: ${read.contradiction}; taken as what it holds.`);
    const place = JSON.stringify([monitor, channel, position]);
    const named = takeOf(one.parts);
    let take = named ?? 1;
    while (taken.has(place + String(take))) take++;
    taken.add(place + String(take));
    if (named !== null && named !== take)
      doubts.push(`${file.file}: another file is take ${named} already; taken as take ${take}.`);
    recordings.push({
      file: file.file,
      monitor,
      position,
      take,
      channel,
      words: evidenceOf(one.parts, belongs[n]!, { ...read, channel }),
    });
  }
  const boxes = recordings.filter(({ channel, file }) => {
    const one = names.find((name) => name.file.file === file)!;
    return channel === "both" && one.read.channel === null && !ONE_BOX.includes(one.monitor.role);
  });
  if (boxes.length > 0) {
    const files = few(boxes.map(({ file }) => file));
    doubts.push(
      `No side in the name of ${files}: written as "both", one signal on all loudspeakers. Edit "channel" to L or R.`,
    );
  }
  const assumed = names.filter(({ read }) => read.isPlaceAssumed).map(({ file }) => file.file);
  if (assumed.length > 0) doubts.push(`No place in the name of ${few(assumed)}: taken as the mix position.`);
  const used =
    (list: "monitor" | "position") =>
    ({ id }: { id: string }) =>
      recordings.some((one) => one[list] === id);
  return {
    monitors: monitors.list.filter(used("monitor")),
    positions: places.list.filter(used("position")),
    ...{ recordings, unplaced, doubts: [...monitors.doubts, ...places.doubts, ...doubts] },
  };
}

function takeOf(parts: readonly NamePart[]): number | null {
  const takes = parts.flatMap(({ text, says }) => (says.kind === "take" ? [{ text, take: says.take }] : []));
  // "take 2" says it; a bare figure may be anything that is counted.
  return (takes.find(({ text }) => /\s/.test(text)) ?? takes[0])?.take ?? null;
}

function channelOf({ file, monitor, read }: Named, all: readonly Named[]): GuessedRecording["channel"] | "unknown" {
  if (file.holds === "reel") return null;
  if (read.channel !== null) return read.channel;
  const hasSides = all.some((other) => other.monitor.key === monitor.key && other.read.channel !== null);
  return hasSides && !ONE_BOX.includes(monitor.role) ? "unknown" : "both";
}
