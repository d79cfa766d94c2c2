import type { AgreedMode } from "./band-modes.js";
import { isFirm } from "./is-firm.js";
import { bandwidthHz, decayTimeS } from "./pole.js";

/** One mode, or several that ring into each other. */
export interface ModeGroup {
  /** One: a mode with a frequency and a decay of its own. */
  readonly isOne: boolean;
  readonly fromHz: number;
  readonly toHz: number;
  /** By rising frequency. */
  readonly members: readonly AgreedMode[];
}

/** What lies within a firm mode's width and has less of its energy is its own departure from an exponential: a choice of ours. */
const COMPANION_ENERGY = 0.1;

/**
 * Joins modes that overlap: they are nearer to each other than the mean of their bandwidths, 2.2 over the decay time.
 *
 * A candidate on which the looks disagree stands for several modes, and reaches as far as it may lie.
 *
 * @returns by rising frequency
 */
export function groupModes(modes: readonly AgreedMode[]): ModeGroup[] {
  const kept = modes
    .filter((mode) => !modes.some((other) => isFirm(other) && outshines(other, mode)))
    .sort((a, b) => a.frequencyHz - b.frequencyHz);
  const groups: ModeGroup[] = [];
  for (const mode of kept) {
    const group = groups.at(-1);
    const [from, to] = reachOf(mode);
    if (group && from < group.toHz) {
      groups[groups.length - 1] = {
        isOne: false,
        fromHz: Math.min(from, group.fromHz),
        toHz: Math.max(to, group.toHz),
        members: [...group.members, mode],
      };
    } else groups.push({ isOne: isFirm(mode), fromHz: from, toHz: to, members: [mode] });
  }
  return groups;
}

/** From half the bandwidth below to half of it above; two modes overlap where their reaches do. */
function reachOf(mode: AgreedMode): [number, number] {
  const half = 0.5 * bandwidthHz(mode) + (isFirm(mode) ? 0 : 2 * mode.frequencyUncertaintyHz);
  return [mode.frequencyHz - half, mode.frequencyHz + half];
}

function outshines(firm: AgreedMode, mode: AgreedMode): boolean {
  const apart = Math.abs(firm.frequencyHz - mode.frequencyHz);
  return mode !== firm && apart < 0.5 * bandwidthHz(firm) && mode.energy < COMPANION_ENERGY * firm.energy;
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
