import type { Check, Measurement } from "../../model.js";
import { BACKGROUND_RATING, BOTH_ROOM_STANDARDS } from "../../standards/bs1116.js";
import { isAdvisory } from "../../standards/limit-origin.js";
import { NOISE_RATING_OCTAVES_HZ, NOISE_RATING_SOURCE, noiseRating } from "../../standards/noise-rating.js";
import { origin } from "../target/origin-words.js";
import { unknown } from "./worst.js";

const limits = [
  { code: "background-noise-aim", rating: BACKGROUND_RATING.aim, words: "aimed at" },
  { code: "background-noise", rating: BACKGROUND_RATING.most, words: "not to be exceeded" },
] as const;

/**
 * Noise of the silence before the sweeps, as a noise rating: the noisiest of the measurements.
 *
 * What was recorded is the room and the microphone together. A pass is therefore sure, and a failure may be the microphone's.
 */
export function backgroundNoise(sides: readonly Measurement[]): Check[] {
  return limits.map(({ code, rating, words }) => ({
    code,
    source: `${BOTH_ROOM_STANDARDS}, ${origin(BACKGROUND_RATING)}; ${NOISE_RATING_SOURCE}`,
    limit: `NR ${rating}, ${words}`,
    unit: "NR",
    ...judge(sides, rating),
    advisory: isAdvisory(BACKGROUND_RATING),
    channel: null,
  }));
}

function judge(sides: readonly Measurement[], rating: number): Pick<Check, "value" | "pass" | "reason" | "bandHz"> {
  const backgrounds = sides.flatMap(({ background }) => background ?? []);
  if (backgrounds.length === 0) return unknown("no-silence-recorded");
  const calibrated = backgrounds.filter(({ levelReference }) => levelReference === "spl");
  if (calibrated.length === 0) return unknown("not-calibrated");
  const rated = calibrated.flatMap(({ bands }) => noiseRating(bands) ?? []);
  const [first] = rated;
  if (!first) return unknown("no-band-could-be-judged");
  const noisiest = rated.reduce((a, b) => (b.rating > a.rating ? b : a), first);
  const count = NOISE_RATING_OCTAVES_HZ.length;
  const missing = Math.max(
    ...calibrated.map(({ bands }) => count - bands.filter(({ levelDb }) => levelDb !== null).length),
  );
  const pass = noisiest.rating <= rating;
  const reason = pass ? (missing > 0 ? `${missing}-of-${count}-bands-not-judged` : null) : "includes-microphone-noise";
  return { value: noisiest.rating, pass, reason, bandHz: noisiest.nominalHz };
}
