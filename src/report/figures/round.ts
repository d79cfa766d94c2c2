/** Rounds to so many significant digits: more than an eye can see in a plot only makes the page larger. */
export function round(value: number, digits: number): number {
  return Number(value.toPrecision(digits));
}
