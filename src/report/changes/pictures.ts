import type { ChangedQuantity, ChangePair, Changes } from "../../schema/changes.js";
import { standingDecays } from "../../schema/standing-decay.js";
import { bandLabel, capital, hertz } from "../../words/numbers.js";
import type { Figure } from "../figures/figure.js";
import { dotsFigure } from "../figures/before-after.js";
import type { Block, Mark } from "../sections/section.js";
import { channelName } from "../words/names.js";
import { pairName, type SideNames, sideNames } from "./names.js";

const GRADES: readonly { mark: Mark; word: string }[] = [
  { mark: "refused", word: "blind" },
  { mark: "mend", word: "care" },
  { mark: "trust", word: "believe" },
];
/** An octave of third octaves. */
const TICK_EVERY = 3;

const DOTS =
  "Bars stand at the later dot and are the expanded uncertainty (k = 2) of the difference of the two: where the earlier dot lies inside a bar, the two are not told apart. Between that and what is called real lie what is just noticed, and chance among so many figures.";

/** The pictures of one monitor. */
export function monitorPictures(monitor: ChangePair, changes: Changes, mix: string | null): Block[] {
  const names = sideNames(changes);
  const name = pairName(monitor, changes);
  const measured = changes.pairs.filter(
    (pair) => pair.kind === "measurement" && pair.monitor === monitor.monitor && pair.position === mix && !pair.derived,
  );
  const blocks = [
    ...decays(monitor, name, measured, names),
    ...ofMonitor(
      monitor,
      "targetDb",
      "tone",
      `${name}: deviation from the target`,
      "The target is the line at 0 dB.",
      names,
    ),
    ...ofMonitor(
      monitor,
      "leftRightDb",
      "left-right",
      `${name}: left minus right`,
      "At 0 dB both sides are equally loud.",
      names,
    ),
  ];
  // What dots and bars mean is said once for each monitor.
  const explained = blocks.map((block, n) =>
    n === 0 && block.kind === "figure" ? { ...block, caption: DOTS } : block,
  );
  return [...explained, ...trust(monitor, name, names)];
}

function decays(monitor: ChangePair, name: string, measured: readonly ChangePair[], names: SideNames): Block[] {
  const panels = measured.flatMap(({ channel, quantities }) => {
    const entries = standingDecays(quantities, 3);
    return entries.length === 0 ? [] : [{ title: `${capital(channelName(channel!, false))}: decay time, s`, entries }];
  });
  if (panels.length === 0) return [];
  const figure = dotsFigure(`plot-decay-${monitor.monitor}`, `${name}: decay times`, panels, "s", names);
  return [picture(`${name}: decay time`, "T30, or the longest range that both sides have, by third octave.", figure)];
}

function ofMonitor(
  { monitor, quantities }: ChangePair,
  quantity: string,
  id: string,
  title: string,
  see: string,
  names: SideNames,
): Block[] {
  const entries = quantities.filter((one) => one.quantity === quantity && one.needed !== null);
  if (entries.length === 0) return [];
  const figure = dotsFigure(`plot-${id}-${monitor}`, title, [{ title: "dB, by third octave", entries }], "dB", names);
  return [picture(title, see, figure)];
}

function picture(title: string, see: string, figure: Figure): Block {
  return { kind: "figure", title, see, caption: "", figure };
}

/** The trust map before and after, one above the other. */
function trust({ monitor, quantities }: ChangePair, name: string, names: SideNames): Block[] {
  const bands = quantities.filter(({ quantity }) => quantity === "trust");
  if (bands.length === 0) return [];
  const row = (side: "before" | "after") => ({
    name: capital(names[side]),
    cells: bands.map((band, k) => ({
      mark: band[side] === null ? ("unknown" as const) : GRADES[band[side]]!.mark,
      tick: k % TICK_EVERY === 1 ? bandLabel(band.bandHz!) : "",
      title: trustWords(band, side),
    })),
  });
  return [
    {
      kind: "strips",
      id: `plot-trust-${monitor}`,
      title: `${name}: can a balance be judged here?`,
      see: "By third octave from 25 Hz to 16 kHz. Disc: believe it. Triangle: with care. Cross: blind. Dashed: not measured.",
      rows: [row("before"), row("after")],
      caption:
        "A grade counts as changed only where what it hangs on has really changed; a figure that crosses its limit by chance does not.",
    },
  ];
}

function trustWords(band: ChangedQuantity, side: "before" | "after"): string {
  const grade = band[side] === null ? "not measured" : GRADES[band[side]]!.word;
  return `${hertz(band.bandHz)}: ${grade} (${band.because})`;
}
