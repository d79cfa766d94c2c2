import type { Results } from "../../model.js";
import { held } from "../../words/numbers.js";
import type { Chapter } from "./part.js";
import { depthTable } from "./treatment/depth-table.js";
import { measureWords } from "./treatment/measure-words.js";
import { problemName } from "./treatment/problem-name.js";
import { trustWords } from "./treatment/trust-words.js";

/** What would help, one trouble a chapter, the one that would do most for the trust map first. */
export function treatmentChapters(results: Results): Chapter[] {
  const { treatment, findings } = results;
  if (!treatment) return [];
  if (treatment.problems.length === 0) {
    return [
      {
        id: "treatment-none",
        heading: "",
        blocks: [{ kind: "prose", text: "Nothing was found that a panel, another place or a setting would mend." }],
      },
    ];
  }
  return [
    { id: "treatment-how", heading: "", blocks: [{ kind: "prose", text: HOW }] },
    ...treatment.problems.map(({ finding, trust, measures }, n) => ({
      id: `treatment-${n + 1}`,
      heading: held(problemName(results, findings[finding]!)),
      blocks: [
        { kind: "prose" as const, text: trustWords(results, trust) },
        { kind: "list" as const, items: measureWords(results, measures) },
      ],
    })),
    {
      id: "treatment-mind",
      heading: "Before anything is hung or moved",
      blocks: [{ kind: "list", items: MIND }, ...depthTable(results)],
    },
  ];
}

const HOW =
  "Against each trouble to be mended: the kinds of measure that work at its frequency, and why. The one whose end would raise most third octaves of the trust map comes first. It is physics, not a plan: how much of a wall is free, what it carries and from which angle the sound comes was not measured, and only another measurement shows what a change has done.";

const MIND = [
  "Heavy panels: a bass absorber weighs as much as a person. What hangs over heads or stands on edge needs fixings made for its weight in that very wall or ceiling, and a second safety line. Local codes and licensed trades decide.",
  "Fire: foam and loose fibre burn and smoke. Use materials of the fire class that the local code asks of a workplace, and keep exits, sprinklers, detectors and ventilation free.",
  "Structure and mains: leave walls, beams and wiring as they are. What is cut, bored into or rewired is for those who are licensed to.",
  "Dust: mineral fibre sheds it. Cut it with mask and gloves, and close it in cloth that sound goes through and fibres do not.",
];
