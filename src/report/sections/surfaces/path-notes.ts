import type { Results } from "../../../model.js";
import { fixed } from "../../../words/numbers.js";
import { surfaceName } from "../../../words/surface-name.js";
import { channelName, shortMonitorName } from "../../words/names.js";

/** What stands before a loudspeaker weakens what all else is measured against. */
export function blockedNotes(results: Results): string[] {
  return (results.surfaces?.measurements ?? []).flatMap(({ id, directBlockedBy }) => {
    const measurement = results.measurements.find((one) => one.id === id);
    if (directBlockedBy.length === 0 || !measurement) return [];
    const where = results.session.positions.find((one) => one.id === measurement.position);
    const monitor = shortMonitorName(results, measurement.monitor);
    return [
      `${directBlockedBy.map(surfaceName).join(" and ")} ${directBlockedBy.length === 1 ? "stands" : "stand"} between ${monitor} (${channelName(measurement.channel, false)}) and “${where?.id ?? measurement.position}”, by the places stated: the direct sound is blocked by it. Move it out of the way, or correct its place, size or direction in session.json.`,
    ];
  });
}

export function panelNotes({ surfaces, session }: Results): string[] {
  return (session.panels ?? []).flatMap(({ id }) => {
    const own = (surfaces?.panels ?? []).filter((one) => one.id === id);
    const missing = own.filter(({ reaches }) => !reaches);
    if (missing.length === 0) return [];
    return missing.map(({ monitor, channel, aboveM }) => {
      const where =
        aboveM === null
          ? "sends nothing towards the seat"
          : Math.abs(aboveM) < BESIDE_M
            ? "sends its sound past the seat at its side"
            : `sends its sound past the seat, ${fixed(Math.abs(aboveM), 1)} m ${aboveM > 0 ? "over" : "under"} it`;
      return `${surfaceName(id)} ${where}: ${monitor}, ${channelName(channel, false)}.`;
    });
  });
}

const BESIDE_M = 0.15;
