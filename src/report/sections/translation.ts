import type { Results, Translation } from "../../model.js";
import { fixed, hertz } from "../../words/numbers.js";
import { shortMonitorName } from "../words/names.js";
import { driftPicture } from "./translation/drift-picture.js";
import { driftTable } from "./translation/drift-table.js";
import { guideTable } from "./translation/guide-table.js";
import { trustStrips } from "./translation/trust-strips.js";
import { trustTable } from "./translation/trust-table.js";
import type { Block } from "./section.js";

interface Chapter {
  readonly id: string;
  readonly heading: string;
  readonly blocks: readonly Block[];
}

/** What to set on which monitor, and where mixes will drift: the decision, before anything is drawn. */
export function translationChapters(results: Results): Chapter[] {
  const { translation } = results;
  if (!translation || translation.guide.length === 0) return [];
  return [
    {
      id: "translation-guide",
      heading: "What to set on which monitor",
      blocks: [guideTable(results, translation), trustStrips(results, translation), trustTable(results, translation)],
    },
    { id: "translation-drift", heading: "Where mixes made here will drift", blocks: driftBlocks(results, translation) },
  ];
}

function driftBlocks(results: Results, translation: Translation): Block[] {
  const { compensation, compensationRange, drift } = translation;
  const [least, most] = compensationRange;
  const model: Block = {
    kind: "prose",
    text: `A model, not a measurement: if you correct by ear, part of a monitor's colour ends up inverted in the mix. How large a part nobody has published: here ${percent(compensation)} is reckoned with, and each range holds what ${percent(least)} to ${percent(most)} would give.`,
  };
  if (drift.length === 0) return [model];
  const mixedOn = [...new Set(drift.map((one) => one.mixedOn))];
  const sentences = mixedOn.flatMap((id) => {
    const own = drift.filter((one) => one.mixedOn === id);
    return [...own.flatMap(({ says }) => says ?? []), ...uncontrolled(results, own[0]!)];
  });
  return [
    model,
    ...(sentences.length > 0 ? [{ kind: "list" as const, items: sentences }] : []),
    driftPicture(results, translation),
    ...mixedOn.map((id) => driftTable(results, translation, id)),
  ];
}

/** The same whatever a mix is heard on. */
function uncontrolled(results: Results, { mixedOn, uncontrolledBelowHz }: Translation["drift"][number]): string[] {
  if (uncontrolledBelowHz === null) return [];
  const name = shortMonitorName(results, mixedOn);
  return [`Below ${hertz(uncontrolledBelowHz)} nobody controls what goes into a mix made on ${name}.`];
}

function percent(share: number): string {
  return `${fixed(100 * share, 0)} %`;
}
