import type { Block } from "./section.js";

const cautions = [
  "Sweeps are loud for as long as they last. Begin low, wear ear protection, keep others out of the room.",
  "The upper end of a sweep puts all its power into the tweeters. Do not raise the level there, and rest between sweeps.",
  "Before anything heavy is hung, wired or clad: local codes and licensed trades decide, on fixings, on fire ratings and on mains.",
  "This report describes sound at the microphone. It does not say whether a monitor is healthy, nor whether a mix is good.",
];

/** What to mind when measuring, and when reading this. */
export function cautionBlocks(): Block[] {
  return [{ kind: "list", items: cautions }];
}
