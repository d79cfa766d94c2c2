import type { Results } from "../model.js";
import type { Figure } from "./figures/figure.js";
import { backgroundSection } from "./sections/background.js";
import { cautionSection } from "./sections/cautions.js";
import { comparisonSection } from "./sections/comparison.js";
import { decaySection } from "./sections/decay.js";
import { distortionSection } from "./sections/distortion.js";
import { fileSection } from "./sections/files.js";
import { holdUnits } from "./sections/hold-units.js";
import { leftRightSection } from "./sections/left-right.js";
import { methodSection } from "./sections/method.js";
import { qualitySection } from "./sections/quality.js";
import { reflectionSection } from "./sections/reflections.js";
import { responseSection } from "./sections/response.js";
import type { Section } from "./sections/section.js";
import { type TitleBlock, titleBlock } from "./sections/title.js";
import { verdictSection } from "./sections/verdicts.js";

/** Everything a template can show. */
export interface PageView extends TitleBlock {
  readonly version: string;
  readonly sections: readonly Section[];
}

/** The order in which a report tells its story: words before plots, what can be believed before what was found. */
const story = [
  verdictSection,
  responseSection,
  leftRightSection,
  decaySection,
  reflectionSection,
  distortionSection,
  comparisonSection,
  backgroundSection,
  qualitySection,
  fileSection,
  methodSection,
  cautionSection,
];

export function reportView(results: Results): { readonly page: PageView; readonly figures: readonly Figure[] } {
  const sections = story
    .map((section) => section(results))
    .map((section) => ({ ...section, blocks: section.blocks.map(holdUnits) }));
  const figures = sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.kind === "figure" ? [block.figure] : [])),
  );
  return { page: { ...titleBlock(results), version: results.provenance.version, sections }, figures };
}
