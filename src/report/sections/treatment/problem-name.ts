import type { Finding, Results } from "../../../model.js";
import { capital, fixed, hertz, listed } from "../../../words/numbers.js";
import { channelName, shortMonitorName } from "../../words/names.js";

/** What a trouble is called at the head of what helps against it. */
export function problemName(results: Results, finding: Finding): string {
  const { code, bandHz, rangeHz, atS, channels } = finding;
  const monitors = listed(finding.monitors.map((id) => shortMonitorName(results, id)));
  const side = channels.length === 1 ? `, ${channelName(channels[0]!, false)}` : "";
  const range =
    rangeHz !== null && rangeHz[0] !== rangeHz[1]
      ? `from ${hertz(rangeHz[0])} to ${hertz(rangeHz[1])}`
      : `at ${hertz(bandHz)}`;
  const after = atS === null ? "" : ` after ${fixed(1000 * atS, 1)} ms`;
  switch (code) {
    case "mode-rings":
      return `Ringing at ${hertz(bandHz)}`;
    case "rings":
      return `Ringing ${range}`;
    case "too-live":
      return "The room is live as a whole";
    case "double-slope":
      return "Sound that comes back late";
    case "early-reflection":
    case "one-sided-reflection":
      return `Reflection${after}: ${monitors}${side}`;
    case "flutter":
      return "Flutter between walls that face each other";
    case "boundary-dip":
      return `Dip at ${hertz(bandHz)}: ${monitors}${side}`;
    case "dip":
      return `Dip ${range}: ${monitors}`;
    case "peak":
      return `Peak ${range}: ${monitors}`;
    case "phantom-dip":
      return `Weak centre ${range}: ${monitors}`;
    case "left-right-level":
      return `One side louder: ${monitors}`;
    case "left-right-arrival":
      return `One side later: ${monitors}`;
    case "left-right-bands":
      return `${capital(channelName(channels[0] ?? "both", false))} side weaker ${range}: ${monitors}`;
    default:
      return finding.message;
  }
}
