/** Gain along a raised-cosine edge: 0 at `place` 0 and before, 1 from `place` 1 on. */
export function raisedCosine(place: number): number {
  if (place <= 0) return 0;
  return place >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * place);
}
