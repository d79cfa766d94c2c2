import { fixed, hertz } from "../../../words/numbers.js";
import { type Range, range } from "../../phrases/ranges.js";
import type { Wordings } from "../../wording.js";

type CalibrationDoubt = { readonly file: string } & (
  | { readonly kind: "angle"; readonly angleDeg: number; readonly orientationDeg: number }
  | { readonly kind: "jump"; readonly fromHz: number; readonly toHz: number; readonly stepDb: number }
  | { readonly kind: "range"; readonly rangeDb: number }
  | { readonly kind: "level"; readonly meanDb: number }
  | { readonly kind: "gap"; readonly fromHz: number; readonly toHz: number }
);

/** The microphone's table. */
export const calibrationWords = {
  "calibration-suspect": (f: CalibrationDoubt) => ({
    message: `The microphone's table "${f.file}" ${doubt(f)}. ${doubtful(f)} not to be trusted.`,
    remedy:
      f.kind === "angle"
        ? "name the table for the angle at which the microphone stood, or correct orientationDeg in session.json"
        : "hold it against the original from the microphone's maker; without a right table, leave it out",
  }),
} satisfies Wordings;

function doubt(f: CalibrationDoubt): string {
  if (f.kind === "angle") return `is for ${f.angleDeg}°, but the microphone stood at ${f.orientationDeg}°`;
  if (f.kind === "jump")
    return `jumps by ${fixed(f.stepDb, 1)} dB from ${hertz(f.fromHz)} to ${hertz(f.toHz)}, which no microphone does`;
  if (f.kind === "range") return `spans ${fixed(f.rangeDb, 1)} dB, more than any measuring microphone deviates`;
  if (f.kind === "level")
    return `lies around ${fixed(f.meanDb, 1)} dB, not around 0: it seems to hold a sensitivity, not a deviation`;
  return `says nothing from ${hertz(f.fromHz)} to ${hertz(f.toHz)}, which was measured: its nearest value was used there`;
}

/** Whichever of two rows is wrong, what lies between it and its other neighbour is wrong as well. */
export function spoiltHz({ fromHz, toHz }: { readonly fromHz: number; readonly toHz: number }): Range {
  return [fromHz ** 2 / toHz, toHz ** 2 / fromHz];
}

/** The figures that a doubtful table spoils. */
function doubtful(f: CalibrationDoubt): string {
  if (f.kind === "angle") return "Levels in the treble are";
  if (f.kind === "jump") return `Levels and decays ${range(spoiltHz(f))} are`;
  return f.kind === "gap" ? "Levels there are" : "The levels that it corrects are";
}
