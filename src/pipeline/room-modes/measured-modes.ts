import { matchModes } from "../../comparison/modes/match-modes.js";
import type { AgreedMode } from "../../metrics/modes/band-modes.js";
import { decayOfGroup, type ModeGroup } from "../../metrics/modes/group-modes.js";
import { decayTimeS } from "../../metrics/modes/pole.js";
import type { MeasuredMode, Mode, PredictedMode } from "../../model.js";

/** Modes as results tell them, before anyone asks what is heard of them. */
export type FoundMode = Omit<MeasuredMode, "unheardS" | "bumps" | "audible">;

/** In so many of its standard uncertainties a mode's amplitude must be to ring clearly at a place: a choice of ours. */
const CLEAR = 5;
/** A wider group has no decay of its own: the third octaves tell how its parts decay. */
const WIDEST_DECAY = 2 ** (1 / 3);

/**
 * Writes groups of modes as results tell them.
 *
 * @param ids - of the measurements, in the order of the modes' amplitudes
 */
export function foundModes(
  groups: readonly ModeGroup[],
  ids: readonly string[],
  predicted: readonly PredictedMode[],
): FoundMode[] {
  // What overlaps is fitted with strengths that partly cancel: they are no measure for the others.
  const ones = groups.some(({ isOne }) => isOne) ? groups.filter(({ isOne }) => isOne) : groups;
  const strongest = ids.map((_, place) => Math.max(...ones.map(({ members }) => amplitudeAt(members, place))));
  /** Over the places, at each re what is strongest there: places and loudspeakers differ in level. */
  const strengthOf = (members: readonly AgreedMode[]): number =>
    Math.sqrt(ids.reduce((sum, _, place) => sum + (amplitudeAt(members, place) / strongest[place]!) ** 2, 0));
  const reference = Math.max(...ones.map(({ members }) => strengthOf(members)));
  const levelOf = (members: readonly AgreedMode[]): number => 20 * Math.log10(strengthOf(members) / reference);
  return groups.map(({ isOne, fromHz, toHz, members }) => {
    const one = isOne ? members[0] : undefined;
    const frequencyHz = one?.frequencyHz ?? Math.sqrt(fromHz * toHz);
    const t60S = toHz / fromHz > WIDEST_DECAY ? null : decayOfGroup(members);
    return {
      kind: one ? ("mode" as const) : ("group" as const),
      frequencyHz,
      rangeHz: [fromHz, toHz],
      frequencyUncertaintyHz: one?.frequencyUncertaintyHz ?? null,
      t60S,
      t60UncertaintyS: t60S === null ? null : t60S * relativeUncertainty(members),
      levelDb: t60S === null ? null : levelOf(members),
      places: ids.filter((_, place) => members.some(({ significances }) => significances[place]! >= CLEAR)),
      members: one ? [] : members.map((member) => modeOf(member, levelOf([member]))),
      predicted: matchModes(one ? [frequencyHz, frequencyHz] : [fromHz, toHz], predicted),
    };
  });
}

/** The single modes that ring clearly at one place, re the strongest of them. */
export function modesAt(groups: readonly ModeGroup[], place: number): Mode[] {
  const own = groups.flatMap(({ isOne, members }) =>
    isOne && members[0]!.significances[place]! >= CLEAR ? [members[0]!] : [],
  );
  const strongest = Math.max(...own.map(({ amplitudes }) => amplitudes[place]!));
  return own.map((mode) => modeOf(mode, 20 * Math.log10(mode.amplitudes[place]! / strongest)));
}

function modeOf(mode: AgreedMode, levelDb: number): Mode {
  const t60S = decayTimeS(mode);
  return {
    frequencyHz: mode.frequencyHz,
    t60S,
    levelDb,
    frequencyUncertaintyHz: mode.frequencyUncertaintyHz,
    t60UncertaintyS: t60S * relativeUncertainty([mode]),
  };
}

/** Of the decay: that of the members, by their energies. */
function relativeUncertainty(members: readonly AgreedMode[]): number {
  const total = members.reduce((sum, { energy }) => sum + energy, 0);
  return members.reduce(
    (sum, { energy, dampingPerS, dampingUncertaintyPerS }) =>
      sum + ((energy / total) * dampingUncertaintyPerS) / dampingPerS,
    0,
  );
}

/** Overlapping modes beat: their amplitudes add up as energies do. */
function amplitudeAt(members: readonly AgreedMode[], place: number): number {
  return Math.hypot(...members.map(({ amplitudes }) => amplitudes[place]!));
}
