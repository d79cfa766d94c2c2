import type { Take } from "../capture.js";

/** Takes of the two sides of one monitor at one place. */
export interface Sides {
  readonly monitor: string;
  readonly position: string;
  readonly left: Take;
  readonly right: Take;
}

/** Pairs the first takes of left and right at each place, those of one recording before others. */
export function sidesOfTakes(takes: readonly Take[]): Sides[] {
  const pairs: Sides[] = [];
  for (const left of takes) {
    const { monitor, position } = left.recording;
    if (left.channel !== "L") continue;
    if (pairs.some((pair) => pair.monitor === monitor && pair.position === position)) continue;
    const rights = takes.filter(
      ({ channel, recording }) => channel === "R" && recording.monitor === monitor && recording.position === position,
    );
    const right = rights.find(({ recording }) => recording === left.recording) ?? rights[0];
    if (right) pairs.push({ monitor, position, left, right });
  }
  return pairs;
}

/** Files of takes, each once. */
export function filesOf(takes: readonly Take[]): string[] {
  return [...new Set(takes.map(({ recording }) => recording.file))];
}
