/** A complex number; e^{jωt} throughout, so that what loses energy has a wave number below the real axis. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export function times(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

export function plus(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

export function over(a: Complex, b: Complex): Complex {
  const square = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / square, im: (a.im * b.re - a.re * b.im) / square };
}

/**
 * -j cot z, which turns a layer's wave number times its depth into what the layer shows on a rigid wall.
 *
 * Written with e^{-2|Im z|}, so that a deep layer, whose back is not heard, does not overflow.
 *
 * @example minusJCot({ re: Math.PI / 4, im: 0 }) // { re: 0, im: -1 }
 */
export function minusJCot({ re, im }: Complex): Complex {
  const fall = Math.exp(-2 * Math.abs(im));
  const below = 1 + fall * fall - 2 * fall * Math.cos(2 * re);
  return { re: (-Math.sign(im) * (1 - fall * fall)) / below, im: (-2 * fall * Math.sin(2 * re)) / below };
}
