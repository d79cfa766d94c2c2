import { comparePolarity } from "../../impulse/same-polarity.js";
import type { Finding } from "../../model.js";
import type { Take } from "../capture.js";
import * as findings from "../findings.js";
import { filesOf, type Sides } from "./sides.js";

/** Polarity of left against right, of monitor against monitor, and against the electrical signal where it was recorded. */
export function polarityFaults(takes: readonly Take[], pairs: readonly Sides[]): Finding[] {
  const monitors = [...new Set(takes.map(({ recording }) => recording.monitor))];
  const split = monitors.filter((monitor) => sidesDiffer(pairs.filter((pair) => pair.monitor === monitor)));
  const ofSides = split.map((monitor) => {
    const own = pairs.filter((pair) => pair.monitor === monitor);
    return findings.sidesInverted(monitor, filesOf(own.flatMap(({ left, right }) => [left, right])));
  });
  const whole = monitors.flatMap((monitor) => {
    if (split.includes(monitor)) return [];
    const own = takes.filter(({ recording }) => recording.monitor === monitor);
    const sign = commonSign(own);
    return sign === null ? [] : [{ monitor, sign, takes: own }];
  });
  return [...ofSides, ...monitorAgainstMonitor(whole), ...againstElectrical(whole)];
}

interface Pushing {
  readonly monitor: string;
  readonly sign: 1 | -1;
  readonly takes: readonly Take[];
}

/** At every place that tells, the two sides push opposite ways. */
function sidesDiffer(pairs: readonly Sides[]): boolean {
  const told = pairs
    .map(({ left, right }) => comparePolarity(left.impulse, right.impulse))
    .filter(({ isSure }) => isSure);
  return told.length > 0 && told.every(({ same }) => !same);
}

/** The way that all takes push whose phase tells; null where none does, or where they contradict each other. */
function commonSign(takes: readonly Take[]): 1 | -1 | null {
  const signs = new Set(takes.flatMap(({ pushes }) => pushes ?? []));
  return signs.size === 1 ? [...signs][0]! : null;
}

/** The fewer are taken for the inverted ones; of two that differ either may be. */
function monitorAgainstMonitor(monitors: readonly Pushing[]): Finding[] {
  const ways = ([1, -1] as const).map((sign) => monitors.filter((one) => one.sign === sign));
  const [fewer, more] = ways.sort((a, b) => a.length - b.length);
  if (!fewer || !more || fewer.length === 0) return [];
  const named = fewer.length < more.length ? fewer : monitors;
  const others = fewer.length < more.length ? more : [];
  const id = ({ monitor }: Pushing): string => monitor;
  return [findings.monitorsInverted(named.map(id), others.map(id), filesOf(named.flatMap((one) => one.takes)))];
}

function againstElectrical(monitors: readonly Pushing[]): Finding[] {
  return monitors.flatMap(({ monitor, sign, takes }) => {
    const known = takes.filter(({ flightS, pushes }) => flightS !== null && pushes !== null);
    return sign === -1 && known.length > 0 ? [findings.chainInverted(monitor, filesOf(known))] : [];
  });
}
