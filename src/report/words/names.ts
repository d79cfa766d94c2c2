import type { ChannelName, Measurement, Results } from "../../model.js";

/** What things are called in sentences and beside lines. */

const roles: Readonly<Record<Measurement["role"], string>> = {
  main: "main monitors",
  midfield: "midfield monitors",
  nearfield: "nearfield monitors",
  check: "check speaker",
  car: "car",
  phone: "phone",
  laptop: "laptop",
  tv: "television",
  headphone: "headphones",
  other: "other",
};

export function roleName(role: Measurement["role"]): string {
  return roles[role];
}

/** The monitor's own name where the session gives one, else its id. */
export function monitorName(results: Results, id: string): string {
  return results.monitors.find((monitor) => monitor.id === id)?.name ?? id;
}

/** A name short enough to stand beside a line. */
export function shortMonitorName(results: Results, id: string): string {
  const name = monitorName(results, id);
  return name.length <= 16 ? name : id;
}

export function channelName(channel: ChannelName, derived: boolean): string {
  if (channel === "both") return derived ? "phantom centre" : "both together";
  return channel === "L" ? "left" : "right";
}

/** "Soffit mains, left, at mix". */
export function measurementName(results: Results, measurement: Measurement): string {
  const { monitor, channel, derived, position } = measurement;
  return `${monitorName(results, monitor)}, ${channelName(channel, derived)}, at ${position}`;
}

/** "mains left": for the head of a column. */
export function columnName(results: Results, measurement: Measurement): string {
  return `${shortMonitorName(results, measurement.monitor)} ${channelName(measurement.channel, measurement.derived)}`;
}

/** The measurements a page shows in full: those at the mix position, or all where there is none. */
export function shownMeasurements(results: Results): Measurement[] {
  const mix = results.session.positions.find((position) => position.kind === "mix")?.id;
  const atMix = results.measurements.filter((measurement) => measurement.position === mix);
  return atMix.length > 0 ? atMix : results.measurements;
}

/** As `shownMeasurements`, loudspeakers as they were recorded, without sums computed from them. */
export function recordedMeasurements(results: Results): Measurement[] {
  return shownMeasurements(results).filter((measurement) => !measurement.derived);
}
