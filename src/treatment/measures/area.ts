import type { Finding, Measure, Results } from "../../model.js";
import { roomVolumeM3 } from "../../schema/room-volume.js";
import { AIR } from "../../standards/absorbers/porous-material.js";

/** 24 ln 10: Sabine's constant times the speed of sound. */
const SABINE = 24 * Math.LN10;

/**
 * How much surface that takes everything a room that is live as a whole lacks.
 *
 * @remarks Source: W. C. Sabine, 55.3 V / (c T), textbook. It holds for sound from all sides, which small rooms have above some
 *   hundred hertz only.
 */
export function area({ value, limit }: Finding, { session }: Results): Measure[] {
  if (value === null || limit === null) return [];
  const volumeM3 = roomVolumeM3(session.room);
  const areaM2 = volumeM3 === null ? null : ((SABINE * volumeM3) / AIR.soundSpeedMPerS) * (1 / limit - 1 / value);
  return [{ kind: "area", fromS: value, toS: limit, areaM2 }];
}
