import type { Measure, Results } from "../../../model.js";
import { bandLabel, fixed, significant, unknownMark } from "../../../words/numbers.js";
import { type Block, figures, table } from "../section.js";

type Porous = Extract<Measure, { kind: "porous" }>;

/** Every depth of a porous layer that the page tells, and the model it is from. */
export function depthTable({ treatment }: Results): Block[] {
  const layers = (treatment?.problems ?? [])
    .flatMap(({ measures }) => measures)
    .filter((one): one is Porous => one.kind === "porous")
    .sort((a, b) => a.frequencyHz - b.frequencyHz)
    .filter((one, n, all) => one.frequencyHz !== all[n - 1]?.frequencyHz);
  if (layers.length === 0) return [];
  return [
    table(
      {
        caption: "How deep a porous layer on a hard wall must be, cm",
        folded: true,
        columns: [
          figures("Hz"),
          figures("Quarter wave"),
          ...layers[0]!.depths.map(({ resistivity, absorption }) =>
            figures(`${fixed(100 * absorption, 0)} % at ${fixed(resistivity / 1000, 0)}`),
          ),
        ],
        rows: layers.map(({ frequencyHz, quarterWaveM, depths }) => [
          figures(bandLabel(Number(frequencyHz.toPrecision(3)))),
          figures(fixed(100 * quarterWaveM, 0)),
          ...depths.map(({ depthM, tested }) =>
            figures(depthM === null ? unknownMark : `${significant(100 * depthM, 2)}${tested ? "" : "*"}`),
          ),
        ]),
        notes: [
          "50 % at 5: half of the sound taken, with a flow resistivity of 5 kPa s/m², which is light fibre; 10 is an ordinary board, 20 a dense one (common practice, no source). By Delany and Bazley 1970 (regressions over fibrous materials) from the flow resistivity alone, for sound from all sides (Paris) on a layer so large that its edges do not matter and in which no sound runs along. A figure is about so: resistivities scatter by far more than the model does (columns 5 to 20). Real edges take more; a cover of foil or thick paint takes the treble's share away.",
          "* Frequency over flow resistivity under 0.01: outside what was measured; by Miki 1990, the model's word alone, which no published curve was held against. Between the two models the absorption differs by up to 0.06 where both hold. What such a layer takes straight on, and with air in place of its rear half, stands in absorber-depths.csv.",
          "Beside it on this page: sheet before a box, f = 60 / √(m d), the 60 being c/2π √ρ; plate with holes, f = c/2π √(p / (d (t + 0.85 a))), p the open share, d the depth of air, t the plate, a the hole (Helmholtz); scattering from a quarter of the wavelength deep, three wavelengths away. All three from memory.",
        ],
      },
      "no layer of up to 2 m takes so much.",
    ),
  ];
}
