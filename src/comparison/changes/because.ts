import { expandedUncertainty } from "../../standards/real-difference.js";
import { held } from "../../words/numbers.js";
import { quantity as words } from "../../words/quantity.js";
import type { Judgeable } from "./chance-limits.js";
import type { Reading } from "./reading.js";

/** Why a verdict is what it is, in words. */

export function notKnown({ before, after, reason }: Reading): string {
  if (reason !== null) return reason;
  if (before === null) return "it was not known before";
  return after === null ? "it is not known after" : "its uncertainty is not known";
}

export function real(reading: Reading, needed: number, verdict: "better" | "worse" | null): string {
  const { goal, unit } = reading;
  const size = `${difference(reading)}, where ${plain(needed, unit, needed)} are enough`;
  if (goal === null) return `${size}; nothing published says which is better`;
  const nearer = Math.abs(goal.before - goal.after);
  if (verdict === "better") return `${size}: ${plain(nearer, unit, nearer)} nearer to ${goal.name}`;
  if (verdict === "worse") return `${size}: ${plain(nearer, unit, nearer)} farther from ${goal.name}`;
  const both = goal.before === 0 && goal.after === 0;
  return `${size}; ${both ? `both keep to ${goal.name}` : `not noticeably nearer to ${goal.name}, nor farther`}`;
}

export function none(reading: Reading, { justNoticeable }: Judgeable): string {
  return `${difference(reading)}, where ${plain(justNoticeable, reading.unit, justNoticeable)} are just noticed`;
}

export function open(reading: Reading, needed: number): string {
  return `${difference(reading)}, where it takes ${plain(needed, reading.unit, needed)} to tell it from chance and from what is hardly noticed`;
}

function difference({ before, after, missing, uncertainty, unit }: Reading): string {
  const size = after! - before!;
  const expanded = expandedUncertainty([uncertainty]);
  return `differs by ${held(words(size, expanded, unit, Math.max(Math.abs(size), expanded ?? 0)))}${missing ? " or more" : ""}`;
}

function plain(value: number, unit: Reading["unit"], like: number): string {
  return held(words(value, null, unit, like));
}
