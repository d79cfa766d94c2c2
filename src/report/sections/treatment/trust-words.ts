import type { Results, TrustGain } from "../../../model.js";
import { THIRD_OCTAVES } from "../../../standards/iec61260.js";
import { hertz, listed } from "../../../words/numbers.js";
import { shortMonitorName } from "../../words/names.js";

type Rise = TrustGain["bands"][number];

const GRADES = { believe: "believed", care: "believed with care", blind: "blind" } as const;

/** What it would do to the trust map if a trouble were gone. */
export function trustWords(results: Results, gain: TrustGain | null): string {
  if (gain === null) return "There is no trust map to hold this against.";
  if (gain.codes.length === 0) return "The trust map has no reason of this kind: its grades would stay as they are.";
  const count = `${gain.rises} third ${gain.rises === 1 ? "octave" : "octaves"}`;
  const falls = gain.falls === 0 ? "" : ` ${gain.falls} would fall.`;
  if (gain.rises === 0) return `No grade of the trust map hangs on this alone.${falls}`;
  return `If it were gone and nothing else changed, ${count} of the trust map would rise: ${listed(rises(results, gain.bands))}.${falls}`;
}

/** "nears at 1 kHz and from 2 kHz to 8 kHz, now believed with care, to believed". */
function rises(results: Results, bands: readonly Rise[]): string[] {
  const kinds = [...new Set(bands.map(({ monitor, from, to }) => JSON.stringify([monitor, from, to])))];
  return kinds.map((kind) => {
    const own = bands.filter(({ monitor, from, to }) => JSON.stringify([monitor, from, to]) === kind);
    const { monitor, from, to } = own[0]!;
    return `${shortMonitorName(results, monitor)} ${listed(runs(own.map(({ nominalHz }) => nominalHz)))} (${GRADES[from]} now, ${GRADES[to]} then)`;
  });
}

function runs(nominalsHz: readonly number[]): string[] {
  const places = nominalsHz.map((nominal) => THIRD_OCTAVES.findIndex(({ nominalHz }) => nominalHz === nominal));
  const found: [from: number, to: number][] = [];
  places.forEach((place, n) => {
    const last = found.at(-1);
    if (last && places[n - 1] === place - 1) last[1] = nominalsHz[n]!;
    else found.push([nominalsHz[n]!, nominalsHz[n]!]);
  });
  return found.map(([from, to]) => (from === to ? `at ${hertz(from)}` : `from ${hertz(from)} to ${hertz(to)}`));
}
