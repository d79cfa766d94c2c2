import type { Results } from "../../model.js";
import type { Unpaired } from "../../schema/changes.js";
import { hertz } from "../../words/numbers.js";
import type { PairedMonitor } from "./pair-up.js";
import { sameSweep } from "./same-sweep.js";

/** What was not the same on both sides, though measurements were paired: sweep, microphone, targets, recordings left out. */
export function conditions(before: Results, after: Results, paired: readonly PairedMonitor[]): Unpaired[] {
  if (before === after) return [];
  return [
    ...sweep(before, after),
    ...bands(paired),
    ...microphone(before, after),
    ...targets(paired),
    ...refused(before, "before"),
    ...refused(after, "after"),
  ];
}

function sweep(before: Results, after: Results): Unpaired[] {
  if (sameSweep(before, after)) return [];
  const because =
    "not the same sweep was played; what the room and the monitors do can be compared all the same, overall levels cannot";
  return [{ what: "sweep", id: before.session.sweep, in: "both", because }];
}

/** Third octaves that one side has and the other has not, by monitor. */
function bands(paired: readonly PairedMonitor[]): Unpaired[] {
  return paired.flatMap(({ monitor, measurements }) => {
    const only = (mine: "before" | "after", other: "before" | "after"): Unpaired[] => {
      const lost = measurements.flatMap((pair) => {
        const has = new Set(pair[other].bands.filter(hasLevel).map(({ nominalHz }) => nominalHz));
        return pair[mine].bands.filter(hasLevel).flatMap(({ nominalHz }) => (has.has(nominalHz) ? [] : [nominalHz]));
      });
      if (lost.length === 0) return [];
      const list = [...new Set(lost)]
        .sort((a, b) => a - b)
        .map(hertz)
        .join(", ");
      return [
        { what: "bands", id: monitor[mine].monitor.id, in: mine, because: `${other} nothing was measured at ${list}` },
      ];
    };
    return [...only("before", "after"), ...only("after", "before")];
  });
}

function hasLevel({ fraction, levelDb }: Results["measurements"][number]["bands"][number]): boolean {
  return fraction === 3 && levelDb !== null;
}

function microphone(before: Results, after: Results): Unpaired[] {
  const [old, now] = [before, after].map(({ session, provenance }) => {
    const file = session.microphone?.calibration;
    return `${session.microphone?.name ?? ""} ${provenance.files.find((one) => one.file === file)?.sha256 ?? ""}`;
  });
  if (old === now) return [];
  const id = before.session.microphone?.name ?? after.session.microphone?.name ?? "microphone";
  return [
    {
      what: "microphone",
      id,
      in: "both",
      because: "another microphone or another calibration: differences of tone may be theirs",
    },
  ];
}

function targets(paired: readonly PairedMonitor[]): Unpaired[] {
  return paired.flatMap(({ monitor: { before, after } }): Unpaired[] => {
    const [old, now] = [before.monitor.target?.id, after.monitor.target?.id];
    if (old === now || old === undefined || now === undefined) return [];
    const because = `held against "${old}" before and against "${now}" after: nearer is nearer to its own`;
    return [{ what: "target", id: before.monitor.id, in: "both", because }];
  });
}

function refused({ findings }: Results, when: "before" | "after"): Unpaired[] {
  return findings
    .filter(({ severity }) => severity === "reject")
    .flatMap(({ recordings, message }) =>
      recordings.map((id): Unpaired => ({ what: "recording", id, in: when, because: message })),
    );
}
