import type { Finding, Results } from "../../model.js";
import { closed, held, hertz } from "../../words/numbers.js";
import { minusSigns } from "../words/minus-signs.js";
import { channelName } from "../words/names.js";
import { limitQuantity, quantity } from "../../words/quantity.js";
import { findingPicture } from "./finding-picture.js";
import type { Mark } from "./section.js";

/** A finding as the page shows it: its own words, its figures, and where its picture is. */
interface FindingView {
  readonly mark: Mark;
  readonly message: string;
  readonly remedy: string;
  /** "4.1 ± 0.6 dB; limit 3.0 dB": a quiet line; empty where there is no figure. */
  readonly figures: string;
  /** Where the limit comes from, and what else stands behind the figures. */
  readonly ground: readonly string[];
  /** Id of a figure that may be on the page; empty where none belongs. */
  readonly picture: string;
}

export interface FindingGroup {
  readonly id: Finding["topic"];
  readonly heading: string;
  /** Said where there is no finding. */
  readonly nothing: string;
  /** What is heard most; and, behind a line that opens it, the rest. */
  readonly lists: readonly { readonly heading: string; readonly findings: readonly FindingView[] }[];
}

/** More than these at once nobody mends. */
const AT_ONCE = 6;

const groups = [
  { id: "trust", heading: "What to trust", nothing: "Nothing was found that can be trusted without a doubt." },
  { id: "mend", heading: "What to mend", nothing: "Nothing was found to mend." },
  {
    id: "unknown",
    heading: "What was not measured well enough to say",
    nothing: "Nothing was left open.",
  },
] as const;

/** What was found, in the order in which the results have it. */
export function findingGroups({ findings, measurements, session }: Results): FindingGroup[] {
  const hasMix = session.positions.some(({ kind }) => kind === "mix");
  const withoutMix = "Nothing; but without a mix position tone, sides and monitors were not judged.";
  const usable = measurements.some(({ quality }) => quality.usable);
  return groups.map((group) => ({
    ...group,
    nothing: usable
      ? hasMix
        ? group.nothing
        : withoutMix
      : "No measurement can be used, so nothing can be said here.",
    lists: lists(findings.filter(({ topic }) => topic === group.id).map((one) => findingView(one, group.id))),
  }));
}

function lists(views: readonly FindingView[]): FindingGroup["lists"] {
  if (views.length === 0) return [];
  // One more fits where a line that opens it would stand.
  const shown = views.length <= AT_ONCE + 1 ? views.length : AT_ONCE;
  const rest = views.slice(shown);
  const first = { heading: "", findings: views.slice(0, shown) };
  return rest.length === 0 ? [first] : [first, { heading: `${rest.length} more, heard less`, findings: rest }];
}

function findingView(finding: Finding, mark: "trust" | "mend" | "unknown"): FindingView {
  return {
    mark,
    message: held(closed(finding.message)),
    remedy: finding.remedy === null ? "" : held(closed(finding.remedy)),
    figures: held(figuresOf(finding)),
    ground: groundOf(finding).map(held),
    picture: findingPicture(finding) ?? "",
  };
}

function figuresOf({ value, uncertainty, unit, limit }: Finding): string {
  const scale = value ?? limit ?? 0;
  const found = value === null ? "" : quantity(value, uncertainty, unit, scale);
  const bound = limit === null ? "" : `limit ${limitQuantity(limit, unit, scale)}`;
  return [found, bound].filter((text) => text !== "").join("; ");
}

function groundOf(finding: Finding): string[] {
  const { source, limit, uncertainty, rangeHz, bandHz, monitors, channels } = finding;
  const where = [
    monitors.join(", "),
    channels.map((channel) => channelName(channel, channel === "both")).join(" and "),
    rangeHz ? bandRange(rangeHz) : bandHz === null ? "" : `near ${hertz(bandHz)}`,
  ].filter((text) => text !== "");
  const lines = [];
  if (where.length > 0) lines.push(`Where: ${where.join("; ")}.`);
  if (source !== null)
    lines.push(`${limit === null ? "Held against" : "The limit comes from"}: ${minusSigns(source)}.`);
  if (uncertainty !== null) lines.push("Behind ±: expanded uncertainty (k = 2) at this position.");
  return lines;
}

function bandRange([fromHz, toHz]: readonly [number, number]): string {
  return fromHz === toHz ? `the band at ${hertz(fromHz)}` : `bands from ${hertz(fromHz)} to ${hertz(toHz)}`;
}
