/** Level of a filter's response at one frequency, dB, summed tap by tap. */
export function levelOfTaps(taps: Float64Array, hz: number, rate: number): number {
  let re = 0;
  let im = 0;
  for (const [n, tap] of taps.entries()) {
    re += tap * Math.cos((2 * Math.PI * hz * n) / rate);
    im -= tap * Math.sin((2 * Math.PI * hz * n) / rate);
  }
  return 10 * Math.log10(re ** 2 + im ** 2);
}
