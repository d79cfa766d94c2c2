/** The Fourier sum of a signal at any frequency, term by term: slow, and independent of the transform library. */
export function spectrumAt(samples: ArrayLike<number>, sampleRate: number, frequencyHz: number): [number, number] {
  let real = 0;
  let imaginary = 0;
  for (let n = 0; n < samples.length; n++) {
    const angle = (-2 * Math.PI * frequencyHz * n) / sampleRate;
    real += samples[n]! * Math.cos(angle);
    imaginary += samples[n]! * Math.sin(angle);
  }
  return [real, imaginary];
}
