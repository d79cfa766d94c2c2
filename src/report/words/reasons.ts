/** Why a figure is not there, in words; codes that are not listed read as they are written. */
const reasons: Readonly<Record<string, string>> = {
  "not-measured-at-mix": "not measured at the mix position",
  "no-mix-position": "no measurement at the mix position",
  "one-channel": "only one channel was measured",
  "both-speakers": "left and right are the same sound",
  "no-loopback": "no loopback was recorded",
  "no-common-channel": "no channel was measured on both",
  "not-calibrated": "no calibrator was recorded",
  "close-reflection-undecided": "a close reflection may be the loudspeaker itself",
  "none-stands-out": "no reflection stands out",
  "includes-microphone-noise": "the microphone's own noise is in it",
  "fit-range-not-measured": "the range of the fit was not measured",
  "target-outside-fit-range": "the target has nothing in the range of the fit",
};

export function reasonWords(code: string): string {
  return reasons[code] ?? code.replaceAll("-", " ");
}
