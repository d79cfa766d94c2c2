import type { Finding, Results } from "../../model.js";
import { BACKGROUND_RATING, BOTH_ROOM_STANDARDS } from "../../standards/bs1116.js";
import { NOISE_RATING_SOURCE, noiseRating } from "../../standards/noise-rating.js";
import { atMix } from "../places.js";
import { stated } from "../stated.js";

const { aim, most } = BACKGROUND_RATING;
const SOURCE = `${BOTH_ROOM_STANDARDS}: NR ${aim} aimed at, NR ${most} not to be exceeded, from memory; ${NOISE_RATING_SOURCE}`;

/** The room's own noise, where a calibrator makes it a sound pressure level. */
export function noise(results: Results): Finding[] {
  const ratings = results.monitors.flatMap(({ id }) =>
    atMix(results, id).flatMap(({ background }) =>
      background?.levelReference === "spl" ? (noiseRating(background.bands) ?? []) : [],
    ),
  );
  if (ratings.length === 0) return [];
  // The quietest silence is the room's; in the others somebody moved.
  const { rating, nominalHz } = ratings.reduce((a, b) => (b.rating < a.rating ? b : a));
  if (rating <= most) return [];
  return [
    stated(
      "background-noise",
      { ratingNr: rating, limitNr: most, bandHz: nominalHz },
      {
        severity: "warning",
        topic: "mend",
        value: rating,
        unit: "NR",
        limit: most,
        source: SOURCE,
        // Ten points are heard as twice as loud; under the music all of it is faint.
        audibility: 1 + (rating - most) / 10,
        bandHz: nominalHz,
      },
    ),
  ];
}
