/** What limits a decay figure, in words. */
const words: Readonly<Record<string, string>> = {
  "t20-range-too-small": "too little range above the noise for T20 (35 dB needed)",
  "t30-range-too-small": "too little range above the noise for T30 (45 dB needed)",
  "filter-limited": "the band filter itself rings about as long as the room",
  "direct-dominated": "the direct sound makes a cliff, so the early slope is not the room's; the late decay is given",
};

export function flagWords(flag: string): string {
  return words[flag] ?? flag.replaceAll("-", " ");
}
