import type { AgreedMode } from "./band-modes.js";
import { isFirm } from "./is-firm.js";
import { bandwidthHz, decayTimeS } from "./pole.js";

/** One mode, or several that ring into each other. */
export interface ModeGroup {
  /** One: a mode with a frequency and a decay of its own. */
  readonly isOne: boolean;
  /** From half a bandwidth below the lowest to half of one above the highest; further where they are not known so well. */
  readonly fromHz: number;
  readonly toHz: number;
  /** By rising frequency. */
  readonly members: readonly AgreedMode[];
  /** What cannot be told from them, yet is part of the sound: another pole at the same place. */
  readonly beside: readonly AgreedMode[];
}

/** What has less of the energy than this share of what it overlaps with says nothing of the two: a choice of ours. */
const LEAST_SHARE = 0.1;

/**
 * Tells modes of their own from those that overlap.
 *
 * A mode whose neighbours are all further away than its own bandwidth, 2.2 over the decay time, or next to nothing beside it, is
 * one. The rest are joined where their bandwidths touch. A candidate on which the looks disagree stands for several modes, and reaches as far as it may lie.
 *
 * @returns by rising middle; a group may lie around a mode of its own, which outlasts it
 */
export function groupModes(modes: readonly AgreedMode[]): ModeGroup[] {
  const told = modes.filter((mode) => !modes.some((other) => standsForBoth(other, mode)));
  const groupOf = (mode: AgreedMode, isOne: boolean): ModeGroup => {
    const [fromHz, toHz] = reachOf(mode);
    return { isOne, fromHz, toHz, members: [mode], beside: modes.filter((other) => standsForBoth(mode, other)) };
  };
  const ones = told.filter((mode) => isFirm(mode) && !told.some((other) => isWithin(other, mode)));
  const groups: ModeGroup[] = ones.map((mode) => groupOf(mode, true));
  let open: ModeGroup | null = null;
  for (const mode of told.filter((one) => !ones.includes(one)).sort((a, b) => reachOf(a)[0] - reachOf(b)[0])) {
    const own = groupOf(mode, false);
    if (open && own.fromHz < open.toHz) open = joined(open, own);
    else {
      if (open) groups.push(open);
      open = own;
    }
  }
  if (open) groups.push(open);
  return groups.sort((a, b) => a.fromHz * a.toHz - b.fromHz * b.toHz);
}

function joined(a: ModeGroup, b: ModeGroup): ModeGroup {
  return {
    isOne: false,
    fromHz: Math.min(a.fromHz, b.fromHz),
    toHz: Math.max(a.toHz, b.toHz),
    members: [...a.members, ...b.members].sort((x, y) => x.frequencyHz - y.frequencyHz),
    beside: [...a.beside, ...b.beside],
  };
}

function reachOf(mode: AgreedMode): [number, number] {
  const half = 0.5 * bandwidthHz(mode) + (isFirm(mode) ? 0 : 2 * mode.frequencyUncertaintyHz);
  return [mode.frequencyHz - half, mode.frequencyHz + half];
}

function isWithin(other: AgreedMode, mode: AgreedMode): boolean {
  if (other === mode || other.energy < LEAST_SHARE * mode.energy) return false;
  return Math.abs(other.frequencyHz - mode.frequencyHz) <= bandwidthHz(mode);
}

/**
 * Of two within half a bandwidth of the slower nobody can say that they are two: a single mode of a real room, which does not
 * decay quite exponentially, looks like that. The slower one stands for both, unless it holds next to nothing of them.
 */
function standsForBoth(one: AgreedMode, other: AgreedMode): boolean {
  if (one === other) return false;
  const slower = one.dampingPerS < other.dampingPerS ? one : other;
  const quicker = slower === one ? other : one;
  if (Math.abs(one.frequencyHz - other.frequencyHz) > 0.5 * bandwidthHz(slower)) return false;
  const standing = isFirm(slower) && slower.energy >= LEAST_SHARE * quicker.energy ? slower : quicker;
  return standing === one;
}

/** Between these levels of what is still to come the decay of a group is read. */
const READ_DB = { from: -5, to: -25 } as const;

/**
 * Decay time of modes that ring together, 60 dB, s: the slope from 5 to 25 dB down of all their energies, whose beats against
 * each other differ from place to place and are left out.
 */
export function decayOfGroup(members: readonly AgreedMode[]): number {
  const slowest = Math.max(...members.map(decayTimeS));
  const left = (timeS: number): number =>
    members.reduce((sum, mode) => sum + mode.energy * Math.exp(-2 * mode.dampingPerS * timeS), 0);
  const timeAt = (levelDb: number): number => {
    const wanted = left(0) * 10 ** (levelDb / 10);
    let [early, late] = [0, slowest];
    for (let n = 0; n < 40; n++) {
      const middle = 0.5 * (early + late);
      if (left(middle) > wanted) early = middle;
      else late = middle;
    }
    return early;
  };
  return (60 * (timeAt(READ_DB.to) - timeAt(READ_DB.from))) / (READ_DB.from - READ_DB.to);
}
