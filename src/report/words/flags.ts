/** What limits a decay figure, in words. */
const words: Readonly<Record<string, string>> = {
  "no-decay": "no decay stands out of the noise",
  "direct-sound-only": "the direct sound stands out of the noise, but hardly any decay follows it",
  "outside-swept-range": "the band reaches beyond what was swept",
  "edt-range-too-small": "too little range above the noise for EDT",
  "t20-range-too-small": "too little range above the noise for T20 (35 dB needed)",
  "t30-range-too-small": "too little range above the noise for T30 (45 dB needed)",
  "late-range-too-small": "too little range above the noise for the late decay",
  "filter-limited": "the band filter itself rings about as long as the room",
  "direct-dominated":
    "the direct sound makes a cliff: T20 and T30 are not the room's, and an EDT would hang on one sample",
  "not-straight": "the decay is not a straight line, so one time does not describe it",
  curved: "the decay bends: a coupled space or a flutter",
  disturbed: "something else sounded while the room decayed, so no decay can be read",
  "hidden-by-harmonics": "the harmonics of something driven too hard go on like a decay, so no decay can be read",
  "clarity-below-noise": "late sound is under the noise, so clarity is not known",
};

export function flagWords(flag: string): string {
  return words[flag] ?? flag.replaceAll("-", " ");
}
