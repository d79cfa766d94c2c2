import type { Results, Translation } from "../../../model.js";
import { isInRegion, REGIONS } from "../../../standards/regions.js";
import { fixed, hertz, signed } from "../../../words/numbers.js";
import { shortMonitorName } from "../../words/names.js";

export type Drift = Translation["drift"][number];
export type DriftRegion = Drift["regions"][number];
type Range = readonly [number, number];

/** "neutral monitors", "phone in the hand", a monitor's name. */
export function heardName(results: Results, id: string): string {
  if (id === "neutral") return "neutral monitors";
  if (!id.startsWith("class:")) return shortMonitorName(results, id);
  const name = id.slice("class:".length);
  return results.translation?.classes.find((one) => one.id === name)?.name ?? name;
}

export function isClass({ heardOn }: Pick<Drift, "heardOn">): boolean {
  return heardOn.startsWith("class:");
}

/** Less is not worth a sentence, dB: a parameter of the model. */
export function worthDb({ parameters }: Translation): number {
  return parameters.find(({ name }) => name === "clearDb")?.value ?? 0;
}

/** Whether something comes out clearly too loud or too quiet: as much as is worth a sentence, with a range of one sign. */
export function isWorthASentence(driftDb: number | null, rangeDb: Range | null, worth: number): boolean {
  if (driftDb === null || rangeDb === null || rangeDb[0] * rangeDb[1] <= 0) return false;
  return Math.abs(driftDb) >= worth;
}

/** All that is known of one cell of the picture, in a sentence. */
export function cellWords(results: Results, drift: Drift, region: DriftRegion, edges: string): string {
  const mixedOn = shortMonitorName(results, drift.mixedOn);
  const on = heardName(results, drift.heardOn);
  const what = `Mixed on ${mixedOn}, heard on ${on}, ${region.region} (${edges})`;
  if (!region.controlled) {
    const spread = region.rangeDb === null ? "" : `; recordings differ there by ±${fixed(region.rangeDb[1], 0)} dB`;
    const why = region.reason === "not-measured" ? "was not measured" : "is blind";
    return `${what}: uncontrolled, as ${mixedOn} ${why} there${spread}.`;
  }
  if (isClass(drift)) {
    return `${what}: this room adds ${rangeWords(region.roomShareRangeDb)}; such a device does ${rangeWords(region.systemShareRangeDb)} to every mix.`;
  }
  if (region.driftDb === null) return `${what}: not known.`;
  return `${what}: ${louderWords(region.rangeDb)}${worstWords(drift, region)}.`;
}

export function rangeWords(rangeDb: Range | null): string {
  if (rangeDb === null) return "something that is not known";
  const [low, high] = rangeDb.map((end) => signed(end, 1));
  return low === high ? `${low!} dB` : `${low!} to ${high!} dB`;
}

function louderWords(rangeDb: Range | null): string {
  if (rangeDb === null) return "not known";
  const [low, high] = rangeDb;
  const sizes = rangeDb.map((end) => fixed(Math.abs(end), 1));
  if (low * high <= 0) return `from ${sizes[0]!} dB quieter to ${sizes[1]!} dB louder than meant`;
  const ordered = low > 0 ? sizes : [sizes[1]!, sizes[0]!];
  const size = ordered[0] === ordered[1] ? ordered[0]! : `${ordered[0]!} to ${ordered[1]!}`;
  return `${size} dB ${low > 0 ? "louder" : "quieter"} than meant`;
}

/** The band that drifts most of all, told with the region it lies in. */
function worstWords({ worst }: Drift, { region: name }: DriftRegion): string {
  const region = REGIONS.find((one) => one.name === name);
  if (worst === null || region === undefined || !isInRegion(worst.nominalHz, region)) return "";
  return `; most of all bands at ${hertz(worst.nominalHz)} (${signed(worst.driftDb, 1)} dB)`;
}
