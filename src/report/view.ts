import type { Results } from "../model.js";
import type { Figure } from "./figures/figure.js";
import { backgroundSection } from "./sections/background.js";
import { cautionBlocks } from "./sections/cautions.js";
import { checkSection } from "./sections/checks.js";
import { comparisonSection } from "./sections/comparison.js";
import { decaySection } from "./sections/decay.js";
import { distortionSection } from "./sections/distortion.js";
import { fileSection } from "./sections/files.js";
import { type FindingGroup, findingGroups } from "./sections/findings.js";
import { holdUnits } from "./sections/hold-units.js";
import { leftRightSection } from "./sections/left-right.js";
import { methodBlocks } from "./sections/method.js";
import { modesSection } from "./sections/modes.js";
import { positionsSection } from "./sections/positions.js";
import { qualitySection } from "./sections/quality.js";
import { type RecordingsView, recordingsView } from "./sections/recordings.js";
import { reflectionSection } from "./sections/reflections.js";
import { responseSection } from "./sections/response.js";
import type { Chapter, Part } from "./sections/part.js";
import type { Block } from "./sections/section.js";
import { surfaceSection } from "./sections/surfaces.js";
import { targetSection } from "./sections/target.js";
import { type TitleBlock, titleBlock } from "./sections/title.js";
import { translationChapters } from "./sections/translation.js";
import { treatmentChapters } from "./sections/treatment.js";
import { translationSection } from "./sections/translation/limits-section.js";

/** Everything a template can show. */
export interface PageView extends TitleBlock {
  /** What a comparison comes to; a report's findings need none. */
  readonly lead: "";
  readonly footer: string;
  readonly groups: readonly FindingGroup[];
  readonly recordings: RecordingsView;
  /** Id of the part before which the recordings stand. */
  readonly recordingsBefore: string;
  /** Pictures, tables, method, cautions. */
  readonly parts: readonly Part[];
}

/** The subjects in the order in which they are told, the same for pictures and tables. */
const story = [
  responseSection,
  targetSection,
  leftRightSection,
  comparisonSection,
  decaySection,
  modesSection,
  reflectionSection,
  surfaceSection,
  backgroundSection,
  positionsSection,
  distortionSection,
  translationSection,
  checkSection,
  qualitySection,
  fileSection,
];

export function reportView(results: Results): { readonly page: PageView; readonly figures: readonly Figure[] } {
  const sections = story.map((section) => section(results));
  const parts = [
    { id: "translation", heading: "Where to decide what", chapters: translationChapters(results).map(held) },
    { id: "treatment", heading: "What would help", chapters: treatmentChapters(results).map(held) },
    part("pictures", "Pictures", sections, "pictures"),
    part("tables", "Tables", sections, "tables"),
    whole("method", "Method and conventions", methodBlocks(results)),
    whole("cautions", "Cautions", cautionBlocks()),
  ].filter(({ chapters }) => chapters.length > 0);
  const figures = parts.flatMap(({ chapters }) =>
    chapters.flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === "figure" ? [block.figure] : []))),
  );
  const page = {
    ...titleBlock(results),
    lead: "" as const,
    footer: `Written by Carrywell ${results.provenance.version} from results.json; the same results give the same page. Nothing on it is loaded from anywhere.`,
    groups: withPictures(findingGroups(results), new Set(figures.map(({ id }) => id))),
    recordings: recordingsView(results),
    // Behind the decisions and what would help, before what stands behind them.
    recordingsBefore: parts.find(({ id }) => id !== "translation" && id !== "treatment")?.id ?? "",
    parts,
  };
  return { page, figures };
}

function held(chapter: Chapter): Chapter {
  return { ...chapter, blocks: chapter.blocks.map(holdUnits) };
}

function part(
  id: string,
  heading: string,
  sections: readonly ReturnType<(typeof story)[number]>[],
  kind: "pictures" | "tables",
): Part {
  const chapters = sections
    .filter((section) => section[kind].length > 0)
    .map((section) => ({
      id: `${id}-${section.id}`,
      heading: section.heading,
      blocks: section[kind].map(holdUnits),
    }));
  return { id, heading, chapters };
}

/** A part of one chapter, which needs no heading of its own. */
function whole(id: string, heading: string, blocks: readonly Block[]): Part {
  return { id, heading, chapters: [{ id: `${id}-text`, heading: "", blocks: blocks.map(holdUnits) }] };
}

/** No finding links to a picture that is not there. */
function withPictures(groups: readonly FindingGroup[], drawn: ReadonlySet<string>): FindingGroup[] {
  return groups.map((group) => ({
    ...group,
    lists: group.lists.map((list) => ({
      ...list,
      findings: list.findings.map((one) => (drawn.has(one.picture) ? one : { ...one, picture: "" })),
    })),
  }));
}
