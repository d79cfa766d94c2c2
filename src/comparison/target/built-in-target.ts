import type { MonitorResult } from "../../model.js";
import type { BuiltInTarget } from "../../schema/built-in-targets.js";
import { BS1116, BS1116_RESPONSE } from "../../standards/bs1116.js";
import { EBU3276, EBU3276_RESPONSE } from "../../standards/ebu3276.js";
import {
  FLAT_SOURCE,
  IN_ROOM_TOLERANCE,
  TILT_DB_PER_OCTAVE,
  TILT_REFERENCE_HZ,
  TILT_SOURCE,
} from "../../standards/in-room-curves.js";
import type { MaskSegment } from "../../standards/limit-mask.js";
import { originWords } from "./origin-words.js";
import type { Target } from "./target.js";

/** Wider than anything that is measured. */
const ENDS_HZ = [10, 40_000] as const;

function straight(dbPerOctave: number): Target["points"] {
  return ENDS_HZ.map((frequencyHz) => ({
    frequencyHz,
    levelDb: dbPerOctave === 0 ? 0 : dbPerOctave * Math.log2(frequencyHz / TILT_REFERENCE_HZ),
  }));
}

function target(id: BuiltInTarget, source: string, dbPerOctave: number, limits: readonly MaskSegment[]): Target {
  return { id, source: `${source}; tolerance ${originWords(limits)}`, points: straight(dbPerOctave), limits };
}

const targets: Readonly<Record<BuiltInTarget, Target>> = {
  flat: target("flat", FLAT_SOURCE, 0, IN_ROOM_TOLERANCE),
  tilt: target("tilt", TILT_SOURCE, TILT_DB_PER_OCTAVE, IN_ROOM_TOLERANCE),
  bs1116: target("bs1116", `operational room response of ${BS1116}`, 0, BS1116_RESPONSE),
  ebu3276: target("ebu3276", `operational room response of ${EBU3276}`, 0, EBU3276_RESPONSE),
};

export function builtInTarget(id: BuiltInTarget): Target {
  return targets[id];
}

/**
 * The target of a monitor that names none: `flat` near the loudspeaker, where the direct sound rules, `tilt` elsewhere, where
 * the room's reflections add to the low end what a loudspeaker sends to its sides there.
 *
 * @remarks A choice of ours.
 */
export function defaultTarget(role: MonitorResult["role"]): BuiltInTarget {
  return role === "nearfield" || role === "check" ? "flat" : "tilt";
}
