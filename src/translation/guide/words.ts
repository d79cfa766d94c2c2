import { listed } from "../../words/numbers.js";
import type { ReasonCode } from "../limits.js";
import type { GuideRow } from "../guide.js";

/** All words of the guide stand here. */

type Facts = Omit<GuideRow, "advice">;

/** What to do about a reason, where no monitor can be believed. */
const REMEDIES: Readonly<Record<ReasonCode, string>> = {
  extension: "check on headphones that reach lower, and leave this range as the source has it",
  "deviation-peak": "check on headphones; moving the listener or the speakers, or treatment, would mend it",
  "deviation-dip": "check on headphones; moving the listener or the speakers would mend it",
  "left-right": "check in mono on one speaker; look for what differs between the sides",
  ringing: "check on headphones; bass treatment would mend it",
  "early-reflection": "check on headphones; clear or cover the surface that reflects",
  spread: "keep the head still and check on headphones; moving the listener may mend it",
  audibility: "raise the level for a moment, or check on headphones",
  distortion: "turn down, and check the pitch of the bass on headphones",
  uncertainty: "measure again with less noise before deciding here",
  "one-place": "measure at three places around the head before deciding here",
  "not-measured": "measure this range before deciding here",
};

/** Why a monitor is to be believed with care only, or not at all. */
const GROUNDS: Readonly<Record<ReasonCode, string>> = {
  extension: "it does not reach so far",
  "deviation-peak": "a peak",
  "deviation-dip": "a dip",
  "left-right": "left and right differ",
  ringing: "it rings",
  "early-reflection": "an early reflection",
  spread: "it changes with the place",
  audibility: "too quiet to be heard",
  distortion: "it distorts",
  uncertainty: "not measured well enough",
  "one-place": "measured at too few places",
  "not-measured": "not measured",
};

/**
 * Says which monitor to set a region on, and what to do where none is to be believed.
 *
 * @example adviceWords({ region: "kick weight", verdict: "some", believe: ["mains"], blind: ["nears"], ... })
 *   // "Set the kick weight on mains; nears is blind here (it does not reach so far)."
 */
export function adviceWords(facts: Facts): string {
  const { region, verdict, believe, care, blind, unknown } = facts;
  const single = believe.length + care.length + blind.length + unknown.length === 1;
  const only = single ? " There is no other monitor to check it on." : "";
  switch (verdict) {
    case "all":
      return `Set the ${region} on ${single ? listed(believe) : `${listed(believe)}: they can be believed here`}.${only}`;
    case "some":
      return `Set the ${region} on ${listed(believe)}; ${others(facts)}.`;
    case "with-care": {
      const rest = blind.length + unknown.length > 0 ? `; ${others({ ...facts, care: [] })}` : "";
      return `Set the ${region} on ${listed(care)} with care: ${remedy(facts, care)}${rest}.${only}`;
    }
    case "none":
      return `Do not decide the ${region} here: ${remedy(facts, blind)}.${only}`;
    case "not-measured":
      return `Nothing is known of the ${region}: ${REMEDIES["not-measured"]}.`;
  }
}

function others({ care, blind, unknown, because }: Pick<Facts, "care" | "blind" | "unknown" | "because">): string {
  const verb = (ids: readonly string[]): string => (ids.length === 1 ? "is" : "are");
  const ground = (ids: readonly string[]): string => {
    const codes = new Set(ids.map((id) => because.find(({ monitor }) => monitor === id)?.codes[0]));
    const grounds = [...codes].flatMap((code) => (code ? [GROUNDS[code]] : []));
    return grounds.length > 0 ? ` (${grounds.join("; ")})` : "";
  };
  return [
    ...(care.length > 0 ? [`${listed(care)} only with care${ground(care)}`] : []),
    ...(blind.length > 0 ? [`${listed(blind)} ${verb(blind)} blind here${ground(blind)}`] : []),
    ...(unknown.length > 0 ? [`${listed(unknown)} ${verb(unknown)} not measured here`] : []),
  ].join(", ");
}

/** For the reason that weighs most with the first of the monitors in question. */
function remedy({ because }: Facts, ids: readonly string[]): string {
  const code = because.find(({ monitor }) => monitor === ids[0])?.codes[0];
  return code ? REMEDIES[code] : "check on headphones";
}
