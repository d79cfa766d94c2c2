import { backgroundFigure } from "../figures/background.js";
import type { Background, Results } from "../../model.js";
import { columnName, recordedMeasurements } from "../words/names.js";
import { bandLabel } from "../words/numbers.js";
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
  const blocks: Block[] = [];
  for (const reference of ["spl", "dbfs"] as const) {
    const group = distinct(known.filter(({ background }) => background.levelReference === reference));
    if (group.length === 0) continue;
    const unit = reference === "spl" ? "dB re 20 µPa" : "dB re full scale";
    blocks.push(
      {
        kind: "figure",
        title: "Background noise by octave",
        caption:
          reference === "spl"
            ? "Sound pressure level during the silent lead of the recordings."
            : "Level during the silent lead of the recordings, re a full-scale sine. Without a calibrator recording this is not a sound pressure level; it includes the noise of microphone and input.",
        figure: backgroundFigure(unit, group),
      },
      backgroundTable(unit, group),
    );
  }
  if (blocks.length === 0) {
    blocks.push({ kind: "prose", text: "Not known: no recording begins with enough silence." });
  }
  return { id: "background", heading: "Background noise", blocks };
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
