/** What everyone should have read before the first sweep sounds. Common practice of the trade, no source. */
export const sweepCaution = `  Hearing: a sweep is louder to the ear than music of the same peak, and all treble comes in its last seconds. Wear ear
  protection or leave the room while it plays.
  Level: start with the monitor gain turned down, play once, and come up only as far as the recording needs.
  Tweeters: a sweep drives one tone at a time into one driver. Stay well below the level of loud music, and never
  repeat a loud sweep without rest: some ten seconds between sweeps let voice coils cool.
  Old amplifiers and loudspeakers: end the sweep lower (--end 16000), play it quieter, stop at any smell or buzz.`;
