import { capital } from "../../words/numbers.js";

/** What a check is about, in words; codes that are not listed read as they are written. */
const names: Readonly<Record<string, string>> = {
  "bs1116-response": "Response, ITU-R BS.1116",
  "ebu3276-response": "Response, EBU Tech 3276",
  reverberation: "Reverberation, 200 Hz to 4 kHz",
  "reverberation-edges": "Reverberation below and above",
  "early-reflections": "Early reflections",
  "left-right-match": "Left against right",
  "left-right-arrival": "Arrival of left and right",
  "background-noise-aim": "Background noise, aim",
  "background-noise": "Background noise, limit",
};

export function checkName(code: string): string {
  return names[code] ?? capital(code.replaceAll("-", " "));
}
