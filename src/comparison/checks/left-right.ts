import type { Check, MonitorResult } from "../../model.js";
import { BOTH_ROOM_STANDARDS, CHANNEL_DELAY, LEFT_RIGHT_MATCH } from "../../standards/bs1116.js";
import { isAdvisory } from "../../standards/limit-origin.js";
import { origin } from "../target/origin-words.js";
import { unknown, worst } from "./worst.js";

/** Match of the two sides by third octave, and their difference of arrival. */
export function leftRightChecks({
  leftRight,
  leftRightReason,
}: Pick<MonitorResult, "leftRight" | "leftRightReason">): Check[] {
  const missing = leftRightReason ?? "not-known";
  const [fromHz, toHz] = LEFT_RIGHT_MATCH.rangeHz;
  return [
    {
      code: "left-right-match",
      source: `${BOTH_ROOM_STANDARDS}, ${origin(LEFT_RIGHT_MATCH)}`,
      limit: `within ${LEFT_RIGHT_MATCH.mostDb} dB in each third octave from 250 Hz to 2 kHz`,
      unit: "dB",
      ...match(),
      advisory: isAdvisory(LEFT_RIGHT_MATCH),
      channel: null,
    },
    {
      code: "left-right-arrival",
      source: `${BOTH_ROOM_STANDARDS}, ${origin(CHANNEL_DELAY)}`,
      limit: `within ${Math.round(1e6 * CHANNEL_DELAY.mostS)} µs`,
      unit: "s",
      ...arrival(),
      advisory: isAdvisory(CHANNEL_DELAY),
      channel: null,
    },
  ];

  function match(): ReturnType<typeof worst> {
    if (!leftRight) return unknown(missing);
    // The gain of a second file would pass for a mismatch, or hide one.
    if (leftRight.includesGain) return unknown("gain-not-fixed");
    const bands = leftRight.bands.filter(({ nominalHz }) => nominalHz >= fromHz && nominalHz <= toHz);
    const judged = bands.map(({ nominalHz, differenceDb, uncertaintyDb }) => ({
      bandHz: nominalHz,
      value: differenceDb === null ? null : Math.abs(differenceDb),
      uncertainty: uncertaintyDb,
    }));
    return worst(judged, LEFT_RIGHT_MATCH.mostDb);
  }

  function arrival(): ReturnType<typeof worst> {
    if (!leftRight) return unknown(missing);
    const { arrivalS, arrivalUncertaintyS } = leftRight;
    if (arrivalS === null) return unknown("no-common-clock");
    return worst([{ bandHz: null, value: Math.abs(arrivalS), uncertainty: arrivalUncertaintyS }], CHANNEL_DELAY.mostS);
  }
}
