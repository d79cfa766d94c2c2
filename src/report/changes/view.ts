import type { ChangePair, Changes } from "../../schema/changes.js";
import { capital, held } from "../../words/numbers.js";
import type { Figure } from "../figures/figure.js";
import { holdUnits } from "../sections/hold-units.js";
import type { Chapter, Part } from "../sections/part.js";
import type { Block } from "../sections/section.js";
import { dateWords } from "../words/date.js";
import { comparedBlocks } from "./compared.js";
import { type SaidGroup, saidGroups } from "./groups.js";
import { leadWords } from "./lead.js";
import { methodBlocks } from "./method.js";
import { pairName } from "./names.js";
import { monitorPictures } from "./pictures.js";
import { otherPlaces, pairTables } from "./tables.js";

/** What the report's template shows of a comparison: groups of sentences first, then what stands behind them. */
interface ChangesView {
  readonly title: string;
  readonly context: string;
  readonly lead: string;
  readonly footer: string;
  readonly groups: readonly SaidGroup[];
  readonly recordingsBefore: "";
  readonly parts: readonly Part[];
}

export function changesView(changes: Changes): { readonly page: ChangesView; readonly figures: readonly Figure[] } {
  const mix = shownPosition(changes);
  const monitors = changes.pairs.filter(({ kind }) => kind === "monitor");
  const parts: Part[] = [
    whole("compared", "What was compared", comparedBlocks(changes)),
    {
      id: "pictures",
      heading: "Pictures",
      chapters: monitors.map((monitor) =>
        chapter("pictures", monitor, changes, monitorPictures(monitor, changes, mix)),
      ),
    },
    {
      id: "tables",
      heading: "Tables",
      chapters: monitors.map((monitor) => chapter("tables", monitor, changes, tablesOf(monitor, changes, mix))),
    },
    whole("method", "How it was judged", methodBlocks(changes)),
  ].map((part) => ({ ...part, chapters: part.chapters.filter(({ blocks }) => blocks.length > 0) }));
  const figures = parts.flatMap(({ chapters }) =>
    chapters.flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === "figure" ? [block.figure] : []))),
  );
  const drawn = new Set(
    parts.flatMap(({ chapters }) =>
      chapters.flatMap(({ blocks }) =>
        blocks.flatMap((block) =>
          block.kind === "figure" ? [block.figure.id] : block.kind === "strips" ? [block.id] : [],
        ),
      ),
    ),
  );
  const page: ChangesView = {
    ...titleOf(changes),
    lead: leadWords(changes),
    footer: `Written by Carrywell ${changes.version} from changes.json; the same changes give the same page. Nothing on it is loaded from anywhere.`,
    groups: withPictures(saidGroups(changes), drawn),
    recordingsBefore: "",
    parts: parts.filter(({ chapters }) => chapters.length > 0),
  };
  return { page, figures };
}

function titleOf({ before, after, compares }: Changes): { title: string; context: string } {
  if (compares === "monitors") {
    const context = [after.title, after.room, dated(after.date)].filter((part) => part !== null);
    return { title: `${capital(after.monitor!)} against ${before.monitor!}`, context: held(context.join(" · ")) };
  }
  const what = after.notes === null ? [] : [after.notes];
  const when = `${dated(before.date) ?? "before"} and ${dated(after.date) ?? "after"}`;
  const place = after.room ?? before.room;
  const title = `Before and after${place === null ? "" : `: ${place}`}`;
  return { title, context: held([when, ...what].join(" · ")) };
}

function dated(date: string | null): string | null {
  return date === null ? null : dateWords(date);
}

/** The position that is shown in full: the mix position, or the first there is. */
function shownPosition({ pairs, mixPosition }: Changes): string | null {
  const places = pairs.filter(({ kind }) => kind === "measurement").map(({ position }) => position);
  return places.includes(mixPosition) ? mixPosition : (places[0] ?? null);
}

function chapter(part: string, monitor: ChangePair, changes: Changes, blocks: readonly Block[]): Chapter {
  return {
    id: `${part}-${monitor.monitor}`,
    heading: capital(pairName(monitor, changes)),
    blocks: blocks.map(holdUnits),
  };
}

function whole(id: string, heading: string, blocks: readonly Block[]): Part {
  return { id, heading, chapters: [{ id: `${id}-text`, heading: "", blocks: blocks.map(holdUnits) }] };
}

function tablesOf(monitor: ChangePair, changes: Changes, mix: string | null): Block[] {
  const measured = changes.pairs.filter((pair) => pair.kind === "measurement" && pair.monitor === monitor.monitor);
  const others = measured.filter(({ position }) => position !== mix);
  return [
    ...pairTables(monitor, changes),
    ...measured.filter(({ position }) => position === mix).flatMap((pair) => pairTables(pair, changes)),
    ...(others.length > 0 ? otherPlaces(others, changes) : []),
  ];
}

/** No sentence links to a picture that is not there. */
function withPictures(groups: readonly SaidGroup[], drawn: ReadonlySet<string>): SaidGroup[] {
  return groups.map((group) => ({
    ...group,
    lists: group.lists.map((list) => ({
      ...list,
      findings: list.findings.map((one) => (drawn.has(one.picture) ? one : { ...one, picture: "" })),
    })),
  }));
}
