import { leftRightFigure } from "../figures/left-right.js";
import type { Measurement, MonitorResult, Results } from "../../model.js";
import { monitorName, shortMonitorName, shownMeasurements } from "../words/names.js";
import { bandLabel, fixed, hertz, signed, withUncertainty } from "../words/numbers.js";
import { type Block, figures, type Section, signedNumber, table } from "./section.js";

/** Left against right of every monitor. */
export function leftRightSection(results: Results): Section {
  const shown = shownMeasurements(results);
  const side = (monitor: MonitorResult, channel: "L" | "R"): Measurement | undefined =>
    shown.find((measurement) => measurement.monitor === monitor.id && measurement.channel === channel);
  const blocks: Block[] = [];
  for (const monitor of results.monitors) {
    const name = monitorName(results, monitor.id);
    const left = side(monitor, "L");
    const right = side(monitor, "R");
    if (!left || !right) {
      blocks.push({ kind: "prose", text: `${name}: ${missing(monitor.leftRightReason)}` });
      continue;
    }
    blocks.push({
      kind: "figure",
      title: name,
      caption: leftRightWords(monitor),
      figure: leftRightFigure(monitor, left, right, name),
    });
  }
  const compared = results.monitors.filter((monitor) => monitor.leftRight);
  if (compared.length > 0) blocks.push(differenceTable(results, compared));
  return { id: "left-right", heading: "Left and right", blocks };
}

/** Level, arrival and polarity of left against right as sentences. */
function leftRightWords({ leftRight, leftRightReason }: MonitorResult): string {
  if (!leftRight) return missing(leftRightReason);
  const { levelDb, arrivalS, arrivalUncertaintyS, includesGain, samePolarity, bands } = leftRight;
  const gain = includesGain ? " (gain included)" : "";
  const level =
    levelDb === null
      ? "Level difference not known."
      : `Left minus right, 200 Hz to 4 kHz: ${signed(levelDb, 1)} dB${gain}.`;
  const arrival = arrivalS === null ? "Difference in arrival not known." : arrivalWords(arrivalS, arrivalUncertaintyS);
  const widest = bands.reduce<{ nominalHz: number; size: number } | null>((most, { nominalHz, differenceDb }) => {
    const size = Math.abs(differenceDb ?? 0);
    return size > (most?.size ?? 0) ? { nominalHz, size } : most;
  }, null);
  const most = widest ? ` Widest apart at ${hertz(widest.nominalHz)}: ${fixed(widest.size, 1)} dB.` : "";
  const polarity = samePolarity
    ? "Same polarity."
    : "The two have opposite polarity: one is wired the wrong way round.";
  return `${level}${most} ${arrival} ${polarity}`;
}

function arrivalWords(arrivalS: number, uncertaintyS: number | null): string {
  const size = withUncertainty(1e6 * Math.abs(arrivalS), uncertaintyS === null ? null : 1e6 * uncertaintyS, 0);
  if (uncertaintyS !== null && Math.abs(arrivalS) <= 2 * uncertaintyS) {
    return `Left and right arrive together within the uncertainty (${size} µs).`;
  }
  return `${arrivalS > 0 ? "Left" : "Right"} arrives ${size} µs later.`;
}

function differenceTable(results: Results, monitors: readonly MonitorResult[]): Block {
  const bandsHz = new Set(monitors.flatMap(({ leftRight }) => leftRight?.bands.map((band) => band.nominalHz) ?? []));
  return table({
    caption: "Left minus right by third octave",
    folded: true,
    columns: [figures("Hz"), ...monitors.map(({ id }) => figures(`${shortMonitorName(results, id)}, dB`))],
    rows: [...bandsHz]
      .sort((a, b) => a - b)
      .map((nominalHz) => [
        figures(bandLabel(nominalHz)),
        ...monitors.map(({ leftRight }) =>
          signedNumber(leftRight?.bands.find((band) => band.nominalHz === nominalHz)?.differenceDb ?? null, 1),
        ),
      ]),
    notes: ["Positive: left is louder."],
  });
}

function missing(reason: string | null): string {
  if (reason === "not-measured-at-mix") return "not measured at the mix position.";
  if (reason === "one-channel") return "only one channel was measured, so left and right cannot be compared.";
  return reason === null ? "left and right cannot be compared here." : `${reason.replaceAll("-", " ")}.`;
}
