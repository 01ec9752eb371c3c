/** Complex numbers as plain pairs, for impedances and two-ports. Sums, products and square roots only: every engine rounds them alike. */

export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const zero: Complex = { re: 0, im: 0 };
export const unity: Complex = { re: 1, im: 0 };

export function real(re: number): Complex {
  return { re, im: 0 };
}

export function add(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

export function subtract(a: Complex, b: Complex): Complex {
  return { re: a.re - b.re, im: a.im - b.im };
}

export function multiply(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

export function scale(a: Complex, k: number): Complex {
  return { re: k * a.re, im: k * a.im };
}

export function conjugate(a: Complex): Complex {
  return { re: a.re, im: -a.im };
}

/** 1/a; not finite for a = 0. */
export function inverse(a: Complex): Complex {
  const square = a.re * a.re + a.im * a.im;
  return { re: a.re / square, im: -a.im / square };
}

export function divide(a: Complex, b: Complex): Complex {
  return multiply(a, inverse(b));
}

/** |a|. */
export function magnitude(a: Complex): number {
  return Math.sqrt(a.re * a.re + a.im * a.im);
}
