import type { Listening, ListeningBassLine, ListeningClass, ListeningVersion } from "../../schema/listening.js";
import { fixed, hertz, listed, signed } from "../../words/numbers.js";

/** A listening in words, for the page and the terminal alike. */

export function clock(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

function percent(share: number): string {
  return `${fixed(100 * share, 0)} %`;
}

const whyNot = {
  "level-not-stated": "not known: its level is not stated",
  "noise-not-stated": "not known: the noise around it is not stated",
  "curve-not-stated": "not known: its table does not reach down to 40 Hz",
  "beyond-the-model": "not known: too loud for the model",
  "nothing-left": "nothing is heard",
} as const;

/** "38 % (29 to 45)": the typical member, and the range over the poor, the typical and the good one. */
export function lostWords({ members }: ListeningClass): string {
  const shares = members.map(({ loudnessShare }) => loudnessShare);
  const { loudnessShare: typical, reason } = typicalOf(members);
  const known = shares.filter((share) => share !== null);
  if (typical === null) return reason === null || reason === "nothing-left" ? "not known" : whyNot[reason];
  if (known.length < shares.length) return percent(typical);
  const [least, most] = [Math.min(...known), Math.max(...known)].map((share) => fixed(100 * share, 0));
  return `${percent(typical)} (${least!} to ${most!})`;
}

export function lowestWords({ members }: ListeningClass): string {
  const { lowestOctaveHz, reason } = typicalOf(members);
  return lowestOctaveHz === null ? whyNot[reason ?? "nothing-left"] : `${hertz(lowestOctaveHz)} octave`;
}

function typicalOf(members: ListeningClass["members"]): ListeningClass["members"][number] {
  return members.find(({ member }) => member === "typical")!;
}

const verdicts = { heard: "heard", weak: "weak", lost: "lost" } as const;

export function bassWords({ bassLine }: ListeningClass): string {
  if (bassLine === null) return "by its fundamental";
  const { typical, low } = bassLine;
  const [usual, poor] = [typical, low].map(bassVerdict);
  return usual === poor ? usual! : `${usual!}; on a poor one ${poor!}`;
}

function bassVerdict({ verdict, reason }: ListeningBassLine): string {
  if (verdict !== null) return verdicts[verdict];
  return reason === null || reason === "no-bass" ? "no bass to judge" : whyNot[reason];
}

/** "24 % of the loudness; down to the 250 Hz octave; bass line weak". */
function classWords(one: ListeningClass): string {
  const { loudnessShare, lowestOctaveHz, reason } = typicalOf(one.members);
  const lost = loudnessShare === null ? `loudness ${lostWords(one)}` : `${lostWords(one)} of the loudness`;
  const lowest =
    lowestOctaveHz !== null
      ? `down to the ${lowestWords(one)}`
      : reason === "nothing-left"
        ? whyNot[reason]
        : `lowest octave ${lowestWords(one)}`;
  return `${lost}; ${lowest}; bass line ${bassWords(one)}`;
}

type Mono = Listening["translation"]["mono"];

/** What mono does to the mix, in a sentence. */
export function monoWords({ translation: { mono } }: Listening): string {
  const sounding = mono.filter(({ correlation }) => correlation !== null);
  if (sounding.length === 0) return "There is nothing to judge.";
  const gone = where(mono, ({ reason }) => reason === "vanishes");
  const warned = where(
    mono,
    ({ correlation, says, reason }) => correlation !== null && says === "warning" && reason === null,
  );
  const noted = where(mono, ({ correlation, says }) => correlation !== null && says === "note");
  const told = [
    ...(gone ? [`Left is right upside down ${gone}: in mono that vanishes.`] : []),
    ...(warned ? [`Left and right partly cancel ${warned}: in mono that loses 3.5 dB or more.`] : []),
  ];
  if (told.length > 0) return told.join(" ");
  if (noted) return `In mono the mix loses 2 to 3.5 dB ${noted}.`;
  return "Nothing is lost in mono that would be noticed: no band loses 2 dB.";
}

/** "at 31.5 Hz and from 80 Hz to 16 kHz": third octaves side by side are one range; null where there are none. */
function where(mono: Mono, holds: (band: Mono[number]) => boolean): string | null {
  const runs: number[][] = [];
  mono.forEach((band, k) => {
    if (!holds(band)) return;
    const before = mono[k - 1];
    if (before && holds(before)) runs.at(-1)!.push(band.nominalHz);
    else runs.push([band.nominalHz]);
  });
  const spans = runs.map((run) =>
    run.length === 1 ? `at ${hertz(run[0]!)}` : `from ${hertz(run[0]!)} to ${hertz(run.at(-1)!)}`,
  );
  return spans.length > 0 ? listed(spans) : null;
}

/** "+2.1 (+0.4 to +3.3)", "nobody controls it", "not measured". */
export function driftWords({
  driftDb,
  rangeDb,
  controlled,
}: Listening["translation"]["drift"][number]["regions"][number]): string {
  if (!controlled) return "uncontrolled";
  if (driftDb === null) return "not known";
  const range = rangeDb === null ? "" : ` (${signed(rangeDb[0], 1)} to ${signed(rangeDb[1], 1)})`;
  return `${signed(driftDb, 1)}${range}`;
}

/** The listening in a few lines, for whoever stands at the terminal. */
export function listeningInWords(listening: Listening, strong: (text: string) => string): string {
  const { mix, loudnessLufs, translation, missing, versions } = listening;
  const lines = [
    strong(mix.file),
    `  ${clock(mix.durationS)}, ${fixed(mix.loudnessLufs, 1)} LUFS; written at ${fixed(loudnessLufs, 1)} LUFS`,
    "",
    strong("What is lost where"),
    ...translation.classes.map((one) => `  ${one.name}: ${classWords(one)}`),
    `  in mono: ${monoWords(listening)}`,
  ];
  const named = (wanted: ListeningVersion["reason"]): string[] =>
    versions.filter(({ matched, reason }) => !matched && reason === wanted).map(({ name }) => name);
  const [quieter, silent] = [named("too-quiet-to-match"), named("nothing-left")];
  if (quieter.length > 0) lines.push(`  Left quieter than the others: ${listed(quieter)}.`);
  if (silent.length > 0) lines.push(`  Silent, as nothing of the mix is left: ${listed(silent)}.`);
  if (missing.length > 0)
    lines.push(`  Not rendered: ${listed(missing.map(({ id, reason }) => `${id} (${reason})`))}.`);
  return `${lines.join("\n")}\n`;
}
