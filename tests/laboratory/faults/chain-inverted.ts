import { withClockDrift } from "../../../src/simulate/recording/clock-drift.js";
import type { Fault } from "../fault.js";
import { LAB_CLOCK_PPM, LEAD_S, type LabSession } from "../laboratory.js";

/** Records what the player gave on a second channel, and turns over what the microphone gets. */
function besideElectrical(sign: 1 | -1): (clean: LabSession) => LabSession {
  return (clean) => {
    const { reel, session } = clean;
    const sum = reel.L.map((value, n) => value + reel.R[n]!);
    const played = withClockDrift(sum, reel.sampleRate, LAB_CLOCK_PPM);
    const sounds = Object.entries(clean.sounds).map(([file, sound]) => {
      const microphone = sound.channels[0]!.map((value) => sign * value);
      const electrical = new Float64Array(microphone.length);
      const lead = Math.round(LEAD_S * reel.sampleRate);
      electrical.set(played.subarray(0, electrical.length - lead), lead);
      return [file, { ...sound, channels: [microphone, electrical] }] as const;
    });
    const recordings = session.recordings.map((one) => ({ ...one, fileChannel: 1, loopback: 2 }));
    return { ...clean, session: { ...session, recordings }, sounds: Object.fromEntries(sounds) };
  };
}

/** Only the electrical signal beside it tells: without, both loudspeakers are alike and nothing is claimed. */
export const chainInvertedFault: Fault = {
  what: "the whole chain is inverted, and the player was recorded too",
  code: "polarity-inverted",
  severity: "info",
  strengths: [
    { strength: "not at all", verdict: "harmless", isSlow: true, inject: besideElectrical(1) },
    { strength: "from amplifier to microphone", verdict: "harmful", inject: besideElectrical(-1) },
  ],
};
