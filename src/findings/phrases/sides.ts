export const sideOf = (channel: string): string => (channel === "L" ? "left" : channel === "R" ? "right" : "both");

export const sides = (channels: readonly string[]): string =>
  channels.length === 1 ? sideOf(channels[0]!) : "left and right";

export const sweepOf = (channel: string | null): string => (channel === null ? "sweep" : `${sideOf(channel)} sweep`);
