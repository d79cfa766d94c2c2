import { targetFigure } from "../figures/target.js";
import type { MonitorResult, Results, TargetResult } from "../../model.js";
import { monitorName, shortMonitorName } from "../words/names.js";
import { bandLabel, fixed, hertz, listed, signed } from "../../words/numbers.js";
import { reasonWords } from "../words/reasons.js";
import { type Block, figures, type Section, signedNumber, table, uncertainty, words } from "./section.js";

interface Held {
  readonly id: string;
  readonly target: TargetResult;
}

/** Every monitor against the curve it should follow. */
export function targetSection(results: Results): Section {
  const held = results.monitors.flatMap(({ id, target }) => (target ? [{ id, target }] : []));
  const without = results.monitors.filter(({ target }) => !target);
  const pictures: Block[] = [];
  if (held.length > 0) {
    pictures.push({
      kind: "figure",
      title: "Each monitor against its target",
      see: seeWords(results, held),
      caption: [
        "Measured minus target, mean of left and right, by third octave. Shaded: the tolerance. Triangles point the way a band has left it. Bars: U, expanded uncertainty at this place (k = 2).",
        held.some(({ target }) => target.advisory)
          ? "Tolerances are advisory: no pass or fail hangs on them; where they come from stands with the tables."
          : "Where the tolerances come from stands with the tables.",
      ].join(" "),
      figure: targetFigure(held.map(({ id, target }) => ({ name: shortMonitorName(results, id), target }))),
    });
  }
  if (without.length > 0) pictures.push({ kind: "list", items: without.map((one) => missingWords(results, one)) });
  return {
    id: "target",
    heading: "Against the target",
    pictures,
    tables: held.length > 0 ? [summaryTable(results, held), bandTable(results, held)] : [],
  };
}

function seeWords(results: Results, held: readonly Held[]): string {
  const shares = held.flatMap(({ id, target: { withinPercent } }) =>
    withinPercent === null ? [] : [`${monitorName(results, id)} in ${fixed(withinPercent, 0)} % of the bands`],
  );
  if (shares.length === 0) return "The nearer a line keeps to zero, the nearer the monitor keeps to its target.";
  return `Within the shaded tolerance: ${listed(shares)}; look at what lies outside it.`;
}

function fitWords({ id, fitHz, advisory, source }: TargetResult): string {
  const limits = advisory ? " Advisory." : "";
  return `Target “${id}”, laid on each curve from ${hertz(fitHz[0])} to ${hertz(fitHz[1])}: ${source}.${limits}`;
}

function missingWords(results: Results, { id, targetReason }: MonitorResult): string {
  return `${monitorName(results, id)}: no target was laid over it${targetReason === null ? "" : `, ${reasonWords(targetReason)}`}.`;
}

function summaryTable(results: Results, held: readonly Held[]): Block {
  return table({
    caption: "How near each monitor keeps to its target",
    folded: false,
    columns: ["Monitor", "Target", "Within tolerance, %", "RMS deviation, dB", "Offset, dB"].map((text, index) =>
      index > 1 ? figures(text) : words(text),
    ),
    rows: held.map(({ id, target }) => [
      words(monitorName(results, id)),
      words(target.advisory ? `${target.id} (advisory)` : target.id),
      figures(target.withinPercent === null ? "—" : fixed(target.withinPercent, 0)),
      figures(target.rmsDb === null ? "—" : fixed(target.rmsDb, 1)),
      signedNumber(target.offsetDb, 1),
    ]),
    notes: [
      "Within tolerance: how many of the bands with limits keep to them. Offset: what was added to the target so that it lies on the measured curve.",
      ...new Set(held.map(({ target }) => fitWords(target))),
    ],
  });
}

function bandTable(results: Results, held: readonly Held[]): Block {
  const bandsHz = new Set(held.flatMap(({ target }) => target.bands.map((band) => band.nominalHz)));
  const at = (target: TargetResult, nominalHz: number): TargetResult["bands"][number] | undefined =>
    target.bands.find((band) => band.nominalHz === nominalHz);
  return table({
    caption: "Measured minus target by third octave, dB",
    folded: true,
    columns: [
      figures("Hz"),
      ...held.flatMap(({ id }) => [shortMonitorName(results, id), "U", "Tolerance"].map(figures)),
    ],
    rows: [...bandsHz]
      .sort((a, b) => a - b)
      .map((nominalHz) => [
        figures(bandLabel(nominalHz)),
        ...held.flatMap(({ target }) => {
          const band = at(target, nominalHz);
          return [
            signedNumber(band?.deviationDb ?? null, 1),
            uncertainty(band?.uncertaintyDb ?? null, 1),
            figures(tolerance(band)),
          ];
        }),
      ]),
    notes: ["Offset included. U: expanded uncertainty (k = 2) at this place."],
  });
}

function tolerance(band: TargetResult["bands"][number] | undefined): string {
  if (!band || (band.lowerDb === null && band.upperDb === null)) return "none";
  return [band.lowerDb, band.upperDb].map((limit) => (limit === null ? "open" : signed(limit, 1))).join(" to ");
}
