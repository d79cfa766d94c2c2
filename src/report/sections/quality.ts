import type { Results } from "../../model.js";
import { measurementName } from "../words/names.js";
import { fixed, hertz, unknownMark } from "../../words/numbers.js";
import { figures, number, type Section, table, uncertainty, words } from "./section.js";

/** The figures behind the verdicts on each recording. */
export function qualitySection(results: Results): Section {
  const rows = results.measurements
    .filter((measurement) => !measurement.derived)
    .map((measurement) => {
      const { quality } = measurement;
      const drift = quality.clockDriftPpm === null ? unknownMark : fixed(quality.clockDriftPpm, 2);
      return [
        words(measurementName(results, measurement)),
        words(quality.usable ? "yes" : "no"),
        figures(String(measurement.takes)),
        number(quality.peakDbfs, 1),
        figures(String(quality.clippedSamples)),
        number(quality.signalToNoiseDb, 1),
        figures(quality.clockDriftCorrected ? `${drift} corrected` : drift),
        uncertainty(quality.clockDriftUncertaintyPpm, 2),
        number(quality.repeatabilityDb, 2),
        figures(residualWords(quality.residual)),
      ];
    });
  return {
    id: "quality",
    heading: "Data quality",
    pictures: [],
    tables: [
      table({
        caption: "Quality of each measurement",
        folded: false,
        columns: [
          words("Measurement"),
          words("Usable"),
          figures("Takes"),
          figures("Peak, dBFS"),
          figures("Clipped samples"),
          figures("Signal to noise, dB"),
          figures("Drift, ppm"),
          figures("U, ppm"),
          figures("Repeats, dB"),
          figures("Residual, dB"),
        ],
        rows,
        notes: [
          "Signal to noise: RMS during the sweep over RMS of the silent lead, 20 Hz to 20 kHz. U: expanded uncertainty (k = 2) of the drift. Residual: the worst block that the impulse response does not explain, over the noise of the silent lead.",
        ],
      }),
    ],
  };
}

function residualWords(residual: Results["measurements"][number]["quality"]["residual"]): string {
  if (!residual || residual.worstExcessDb === null) return unknownMark;
  const at = residual.worstAtS === null ? "" : ` at ${fixed(residual.worstAtS, 1)} s`;
  const band = residual.worstBandHz === null ? "" : `, ${hertz(residual.worstBandHz)}`;
  return `${fixed(residual.worstExcessDb, 1)}${at}${band}`;
}
