/** Ink on paper, one accent hue; lines are told apart by dash as well, so that a grey print still reads. */

export const paper = "#fbfaf7";
export const ink = "#1d1c1a";
export const rule = "#dcd8cf";
export const softInk = "#6a665e";
const accent = "#0b5f86";
/** The accent laid thin over paper, for what is shaded. */
export const tint = "rgba(11,95,134,0.13)";

/** The accent from ink to paper, in so many steps as a figure has depths. */
export const depths = [
  "rgba(11,95,134,0.82)",
  "rgba(11,95,134,0.52)",
  "rgba(11,95,134,0.28)",
  "rgba(11,95,134,0.12)",
] as const;

export interface Stroke {
  readonly colour: string;
  /** Lengths of ink and gap in pixels; "solid" for none. */
  readonly dash: string;
  readonly widthPx: number;
}

const strokes: readonly Stroke[] = [
  { colour: accent, dash: "solid", widthPx: 2.2 },
  { colour: ink, dash: "7px,3px", widthPx: 1.6 },
  { colour: accent, dash: "2px,2.5px", widthPx: 2 },
  { colour: softInk, dash: "solid", widthPx: 1.3 },
  { colour: ink, dash: "9px,3px,2px,3px", widthPx: 1.6 },
  { colour: softInk, dash: "3px,3px", widthPx: 1.6 },
];

/** For the limits of recommendations: there to be seen, not to be taken for a measurement. */
export const limitStroke: Stroke = { colour: ink, dash: "1.5px,2.5px", widthPx: 1.3 };

/** The stroke of the n-th thing in a figure. */
export function stroke(index: number): Stroke {
  return strokes[index % strokes.length]!;
}
