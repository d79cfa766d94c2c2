import type { Changes, Said } from "../../schema/changes.js";
import { capital, closed, held } from "../../words/numbers.js";
import { sideNames } from "./names.js";

interface SaidView {
  readonly mark: Said["topic"];
  readonly message: string;
  readonly remedy: string;
  readonly figures: string;
  readonly ground: readonly string[];
  readonly picture: string;
}

export interface SaidGroup {
  readonly id: Said["topic"];
  readonly heading: string;
  readonly nothing: string;
  readonly lists: readonly { readonly heading: string; readonly findings: readonly SaidView[] }[];
}

/** More than these at once nobody takes in. */
const AT_ONCE = 7;
const PICTURES: Readonly<Record<string, string>> = {
  t20S: "decay",
  t30S: "decay",
  lateS: "decay",
  targetDb: "tone",
  leftRightDb: "left-right",
  trust: "trust",
};

/** What it comes to, for whoever reads no further; a topic of which nothing is said is left out, but for the first two. */
export function saidGroups(changes: Changes): SaidGroup[] {
  return headings(changes)
    .map(({ id, heading, nothing }) => ({
      id,
      heading,
      nothing,
      lists: lists(changes.says.filter(({ topic }) => topic === id)),
    }))
    .filter(({ id, lists }) => lists.length > 0 || id === "better" || id === "worse");
}

function headings(changes: Changes): { id: Said["topic"]; heading: string; nothing: string }[] {
  if (changes.compares === "monitors") {
    const { before, after } = sideNames(changes);
    return [
      { id: "better", heading: `Where ${after} is better than ${before}`, nothing: "Nowhere for certain." },
      { id: "worse", heading: `Where ${after} is worse than ${before}`, nothing: "Nowhere for certain." },
      { id: "changed", heading: "Where they differ, and neither is better", nothing: "" },
      { id: "same", heading: "Where they do not differ", nothing: "" },
      { id: "unknown", heading: "What these measurements cannot tell", nothing: "" },
    ];
  }
  return [
    { id: "better", heading: "What is better", nothing: "Nothing for certain." },
    { id: "worse", heading: "What is worse", nothing: "Nothing for certain." },
    { id: "changed", heading: "What has changed, neither for better nor for worse", nothing: "" },
    { id: "same", heading: "What has not changed", nothing: "" },
    { id: "unknown", heading: "What these measurements cannot tell", nothing: "" },
  ];
}

function lists(said: readonly Said[]): SaidGroup["lists"] {
  if (said.length === 0) return [];
  const views = said.map(view);
  const shown = views.length <= AT_ONCE + 1 ? views.length : AT_ONCE;
  const first = { heading: "", findings: views.slice(0, shown) };
  const rest = views.slice(shown);
  // What is not told or has not changed has no size to stand in order by.
  const smaller = said.slice(shown).every(({ size }) => size !== null && size > 0) ? ", smaller" : "";
  return rest.length === 0 ? [first] : [first, { heading: `${String(rest.length)} more${smaller}`, findings: rest }];
}

function view({ topic, message, remedy, figures, quantity, monitor }: Said): SaidView {
  const picture = PICTURES[quantity];
  return {
    mark: topic,
    message: held(closed(capital(message))),
    remedy: remedy === null ? "" : held(closed(capital(remedy))),
    figures: held(figures ?? ""),
    ground: [],
    picture: picture === undefined || monitor === null ? "" : `plot-${picture}-${monitor}`,
  };
}
