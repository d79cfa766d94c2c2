import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { fixed } from "../../words/numbers.js";
import { figuresOf, fromTo, sizeWords } from "./figures.js";
import { mostWords, storiesOf, type Story, whereWords } from "./runs.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

/** What walls that face each other and openings to other rooms do: flutter, and second, slower decays. */
export function tellLateSound(changes: MonitorChanges): Said[] {
  const of = (name: string): ChangedQuantity[] => changes.own.filter(({ quantity }) => quantity === name);
  return [
    ...of("flutterDb").flatMap((one) => flutter(changes, one)),
    ...of("flutterT60S").flatMap((one) => flutterDecay(changes, one)),
    ...storiesOf(of("secondSlopeS")).map((story) => secondSlope(changes, story)),
    ...storiesOf(of("lateSlopeS")).map((story) => lateSlope(changes, story)),
    ...openSlope(changes, of("secondSlopeS")),
  ];
}

function flutter(changes: MonitorChanges, one: ChangedQuantity): Said[] {
  const name = flutterName(one);
  const isOfTwo = changes.subject !== changes.monitor;
  if (one.change === "real") {
    return [said(changes, one, `${name} ${flutterChange(one, isOfTwo)}, by ${sizeWords(one)} (${fromTo(one)})`)];
  }
  if (one.change === "none" || one.missing === null) return [];
  if (isOfTwo) return [open(changes, one, `${name} was found with one alone; whether they differ cannot be told`)];
  const where = one.missing === "after" ? "before" : "after";
  return [open(changes, one, `${name} was found only ${where}; whether it has changed cannot be told`)];
}

/** Of two monitors none has gone or come: one of them shows what the other does not. */
function flutterChange({ missing, difference }: ChangedQuantity, isOfTwo: boolean): string {
  const way = difference! < 0 ? "less" : "more";
  if (missing === null) return `stands out ${way}`;
  const what = missing === "after" ? "is gone" : "has appeared";
  const whose = `is found with ${missing === "after" ? "the other" : "this one"} alone`;
  return `${isOfTwo ? whose : what}: its echoes stand out ${way}`;
}

function flutterDecay(changes: MonitorChanges, one: ChangedQuantity): Said[] {
  if (one.change !== "real") return [];
  const way = one.difference! < 0 ? "faster" : "more slowly";
  return [said(changes, one, `${flutterName(one)} dies away ${way}, by ${sizeWords(one)} (${fromTo(one)})`)];
}

function flutterName({ atS }: ChangedQuantity): string {
  return `the flutter, echoes every ${fixed(1000 * atS!, 1)} ms,`;
}

function secondSlope(changes: MonitorChanges, story: Story): Said {
  const { most, runs } = story;
  const is = most.missing === "after" ? "is gone" : "has appeared";
  const longest = Math.max(
    ...runs.flatMap(({ bands }) => bands.map((one) => (one.missing === "after" ? one.before! : one.after!))),
  );
  const words = `the second, slower decay in octaves ${whereWords(story)} ${is} (up to ${fixed(longest, 2)} s for 60 dB)`;
  // It is the whole session's; only what stands against it is each monitor's, and would keep it from being told once.
  return { ...said(changes, most, words), figures: null };
}

function lateSlope(changes: MonitorChanges, story: Story): Said {
  const way = story.most.difference! < 0 ? "shorter" : "longer";
  return said(
    changes,
    story.most,
    `the second, slower decay is ${way} in octaves ${whereWords(story)}${mostWords(story)}`,
  );
}

/** A second slope that one side alone shows, where its going or coming cannot be told. */
function openSlope(changes: MonitorChanges, entries: readonly ChangedQuantity[]): Said[] {
  return (["after", "before"] as const).flatMap((missing) => {
    const bands = entries.filter((one) => one.change !== "real" && one.missing === missing);
    if (bands.length === 0) return [];
    const where = whereWords({ runs: bands.map((one) => ({ bands: [one], most: one })) });
    const side = missing === "after" ? "before" : "after";
    const words = `a second, slower decay in octaves ${where} was found only ${side}; whether it has changed cannot be told`;
    return [open(changes, bands[0]!, words)];
  });
}

function said({ subject, monitor }: MonitorChanges, one: ChangedQuantity, words: string): Said {
  const message = `${subject}: ${words}`;
  const { quantity } = one;
  return {
    topic: topicOf(one),
    monitor,
    message,
    remedy: null,
    figures: figuresOf(one),
    size: sizeOf(one),
    quantity,
  };
}

function open({ subject, monitor }: MonitorChanges, { quantity, because }: ChangedQuantity, words: string): Said {
  const message = `${subject}: ${words}: ${because}`;
  return { topic: "unknown", monitor, message, remedy: null, figures: null, size: null, quantity };
}
