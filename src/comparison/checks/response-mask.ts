import type { Check, Measurement } from "../../model.js";
import { BS1116, BS1116_RESPONSE } from "../../standards/bs1116.js";
import { EBU3276, EBU3276_RESPONSE } from "../../standards/ebu3276.js";
import { bandCurve } from "../band-curve.js";
import { builtInTarget } from "../target/built-in-target.js";
import { bandExcessDb, holdAgainstTarget } from "../target/hold-against-target.js";
import { originWords } from "../target/origin-words.js";
import { isAdvisoryTarget } from "../target/target.js";
import { unknown, worst } from "./worst.js";

const masks = [
  {
    id: "bs1116",
    code: "bs1116-response",
    source: `${BS1116}: ${originWords(BS1116_RESPONSE)}`,
    limit:
      "not beyond ±3 dB re the mean of 200 Hz-4 kHz from 250 Hz to 2 kHz; up to +3 dB from 50 Hz to 16 kHz, down to -3 dB at 2 kHz falling to -7.5 dB at 16 kHz, no lower limit under 250 Hz; value: excess",
  },
  {
    id: "ebu3276",
    code: "ebu3276-response",
    source: `${EBU3276}: ${originWords(EBU3276_RESPONSE)}`,
    limit:
      "not beyond ±3 dB re the mean of 200 Hz-4 kHz from 50 Hz to 16 kHz, the lower limit falling from -3 dB at 2 kHz to -6 dB at 16 kHz; value: excess",
  },
] as const;

/** Operational room response of one loudspeaker against both masks; the value is how far the worst band lies outside. */
export function responseMasks(measurement: Measurement): Check[] {
  const curve = bandCurve([measurement]);
  return masks.map(({ id, code, source, limit }) => {
    const mask = builtInTarget(id);
    const held = holdAgainstTarget(curve, mask);
    const bands = held.target.bands
      .filter(({ lowerDb, upperDb }) => lowerDb !== null || upperDb !== null)
      .map((band) => ({ bandHz: band.nominalHz, value: bandExcessDb(band), uncertainty: band.uncertaintyDb }));
    return {
      code,
      source,
      limit,
      unit: "dB",
      ...(held.reason === null ? worst(bands, 0) : unknown(held.reason)),
      advisory: isAdvisoryTarget(mask),
      channel: measurement.channel,
    };
  });
}
