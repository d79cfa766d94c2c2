import { backgroundFigure, type RatingCurve } from "../figures/background.js";
import { BACKGROUND_RATING, BOTH_ROOM_STANDARDS } from "../../standards/bs1116.js";
import {
  NOISE_RATING_OCTAVES_HZ,
  NOISE_RATING_SOURCE,
  noiseRating,
  noiseRatingLevel,
} from "../../standards/noise-rating.js";
import type { Background, Results } from "../../model.js";
import { columnName, recordedMeasurements } from "../words/names.js";
import { bandLabel, fixed, hertz } from "../../words/numbers.js";
import { type Block, figures, number, type Section, table } from "./section.js";

interface Recorded {
  readonly label: string;
  readonly background: Background;
}

/** The room's own noise, from the silent lead of each recording. */
export function backgroundSection(results: Results): Section {
  const known = recordedMeasurements(results).flatMap((measurement) =>
    measurement.background ? [{ label: columnName(results, measurement), background: measurement.background }] : [],
  );
  const pictures: Block[] = [];
  const tables: Block[] = [];
  for (const reference of ["spl", "dbfs"] as const) {
    const group = distinct(known.filter(({ background }) => background.levelReference === reference));
    if (group.length === 0) continue;
    const unit = reference === "spl" ? "dB re 20 µPa" : "dB re full scale";
    const ratings = reference === "spl" ? ratingCurves(group) : [];
    pictures.push({
      kind: "figure",
      title: "The room's own noise by octave",
      see:
        reference === "spl"
          ? ratedWords(group)
          : "Shapes can be compared here, not loudness: no calibrator was recorded.",
      caption:
        reference === "spl"
          ? `Sound pressure level during the silent lead of the recordings. Dotted: ${NOISE_RATING_SOURCE}.`
          : "Level during the silent lead of the recordings, re a full-scale sine. Without a calibrator recording this is not a sound pressure level; it includes the noise of microphone and input.",
      figure: backgroundFigure(unit, group, ratings),
    });
    tables.push(backgroundTable(unit, group));
  }
  if (pictures.length === 0) {
    pictures.push({ kind: "prose", text: "Not known: no recording begins with enough silence." });
  }
  return { id: "background", heading: "Background noise", pictures, tables };
}

/** The curves aimed at and not to be exceeded, and those in steps of ten up to the one that holds all the noise. */
function ratingCurves(group: readonly Recorded[]): RatingCurve[] {
  const ratings: number[] = [BACKGROUND_RATING.aim, BACKGROUND_RATING.most];
  const highest = Math.max(...group.map(({ background }) => noiseRating(background.bands)?.rating ?? 0));
  for (let rating = 20; rating < highest + 10 && rating <= 60; rating += 10) ratings.push(rating);
  return ratings.map((rating) => ({
    name: `NR ${rating}`,
    bands: NOISE_RATING_OCTAVES_HZ.map((nominalHz) => ({ nominalHz, levelDb: noiseRatingLevel(rating, nominalHz)! })),
  }));
}

function ratedWords(group: readonly Recorded[]): string {
  const ratings = group.flatMap(({ background }) => noiseRating(background.bands) ?? []);
  if (ratings.length === 0) return "The lower a line lies, the quieter the room.";
  const worst = ratings.reduce((a, b) => (b.rating > a.rating ? b : a));
  return `The noise touches NR ${fixed(worst.rating, 0)} at ${hertz(worst.nominalHz)}; NR ${BACKGROUND_RATING.aim} is aimed at, NR ${BACKGROUND_RATING.most} not to be exceeded (${BOTH_ROOM_STANDARDS}, from memory, so advisory).`;
}

/** Channels taken from one recording share its silence: say it once. */
function distinct(recorded: readonly Recorded[]): Recorded[] {
  const groups = new Map<string, { labels: string[]; background: Background }>();
  for (const { label, background } of recorded) {
    const key = JSON.stringify(background);
    const group = groups.get(key);
    if (group) group.labels.push(label);
    else groups.set(key, { labels: [label], background });
  }
  return [...groups.values()].map(({ labels, background }) => ({ label: shared(labels), background }));
}

function shared(labels: readonly string[]): string {
  const [first = ""] = labels;
  const monitor = first.replace(/ (left|right)$/, "");
  return labels.length > 1 && labels.every((label) => label.startsWith(`${monitor} `)) ? monitor : labels.join(", ");
}

function backgroundTable(unit: string, group: readonly Recorded[]): Block {
  const octavesHz = [...new Set(group.flatMap(({ background }) => background.bands.map((band) => band.nominalHz)))];
  return table({
    caption: `Octave levels, ${unit}`,
    folded: false,
    columns: [figures("Hz"), ...group.map(({ label }) => figures(label))],
    rows: [
      ...octavesHz
        .sort((a, b) => a - b)
        .map((nominalHz) => [
          figures(bandLabel(nominalHz)),
          ...group.map(({ background }) =>
            number(background.bands.find((band) => band.nominalHz === nominalHz)?.levelDb ?? null, 1),
          ),
        ]),
      [figures("A-weighted"), ...group.map(({ background }) => number(background.aWeightedDb, 1))],
    ],
    notes: [],
  });
}
