import type { Said } from "../../schema/changes.js";
import { decaysOf } from "./decays.js";
import { figuresOf, fromTo, sizeWords } from "./figures.js";
import { atMost, rangeWords, type Run, runsOf } from "./runs.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

const OCTAVE = 2 ** 0.6;

/** Where decays have become shorter or longer. */
export function tellDecay(changes: MonitorChanges): Said[] {
  const thirds = runsOf(decaysOf(changes, 3));
  const told = thirds.flatMap(({ bands }) => bands.map(({ bandHz }) => bandHz!));
  // An octave whose third octaves are told already is not told again.
  const octaves = decaysOf(changes, 1);
  const beside = octaves.filter(({ bandHz }) =>
    told.every((hz) => Math.abs(Math.log(hz / bandHz!)) > Math.log(OCTAVE)),
  );
  return [
    ...thirds.map((run) => say(changes, run, "")),
    ...runsOf(beside).map((run) => say(changes, run, run.bands.length > 1 ? " in octaves" : " in the octave")),
  ];
}

function say({ subject, monitor }: MonitorChanges, run: Run, bandWords: string): Said {
  const { most } = run;
  const way = most.difference! < 0 ? "shorter" : "longer";
  const side = topicOf(most) === "changed" ? "; neither is better by what is published" : "";
  return {
    topic: topicOf(most),
    monitor,
    message: `${subject}: the decay is ${way}${bandWords} ${rangeWords(run)}, by ${sizeWords(most)}${atMost(run)} (${fromTo(most)})${side}`,
    remedy: null,
    figures: figuresOf(most),
    size: sizeOf(most),
    quantity: most.quantity,
  };
}
