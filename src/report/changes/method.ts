import type { Changes } from "../../schema/changes.js";
import { fixed } from "../../words/numbers.js";
import type { Block } from "../sections/section.js";
import { justNoticeableTable } from "./tables.js";

/** How the verdicts came about. */
export function methodBlocks(changes: Changes): Block[] {
  const { chance, placementM } = changes;
  return [
    {
      kind: "list",
      items: [
        "Compared is what was measured at one place with what was measured at the same place. Of the whole room only the means over several places speak.",
        "Levels are compared by their shape: re their mean from 200 Hz to 4 kHz, so that another gain is no change. The level itself is compared only between calibrated sessions.",
        "U, the bars, and what stands behind ±: expanded uncertainty (k = 2, about 95 %) of one difference, from takes, noise, the floors stated for a single take (0.2 dB, 2 %)" +
          (placementM > 0
            ? ", and from the microphone's place, by the statistics of a diffuse field, the combs of strong early reflections, and how far decays are from straight lines."
            : ". The microphone is stated to have stood still, so its place is not in it."),
        `${String(chance.judged)} figures were judged at once. Of so many some would differ by more than U by chance alone, so that more is asked for: limits are set such that the chance of calling anything real, if nothing had changed, is at most ${fixed(100 * chance.atMost, 0)} % for the whole page. That takes ${fixed(chance.bluntCoverage, 1)} standard uncertainties${chance.sharpCoverage > 0 ? `, and ${fixed(chance.sharpCoverage, 1)} where a measurement is sharp` : ""}.`,
        "Sharp is a measurement whose standard uncertainty is at most 0.3 of what is just noticed: there a difference is real when it is larger than that, and none when it is not. Elsewhere it must also lie beyond one and a half times what is just noticed by all of its U; none it is only where all of it, U included, stays under what is just noticed. Everything else cannot be told.",
        "Better: noticeably nearer to the target curve, to the recommended decay, to equal sides, to a reflection 10 dB under the direct sound; worse: farther. What has really changed and is neither is called changed.",
        "Up to 200 Hz decays are held against what stays unheard of a single mode, above that against ITU-R BS.1116 and EBU Tech 3276 for the room's volume, partly from memory.",
        "Air of another temperature moves modes by 0.17 % a degree; that is not in the uncertainties.",
      ],
    },
    justNoticeableTable(changes),
  ];
}
