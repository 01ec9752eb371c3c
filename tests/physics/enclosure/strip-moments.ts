/**
 * A strip on a dielectric over a plane by the method of moments, a second route to the closed formulas: even charge on each
 * segment, potentials by the images of a line charge in the dielectric's surface over a plane (P. Silvester, Proc. IEE 115, 1968).
 */
const epsilon_0 = 8.8541878188e-12;
const c = 299792458;

/** ∫ ln(d² + x²) dx. */
function integral(x: number, d: number): number {
  if (x === 0) return 0;
  return x * Math.log(x * x + d * d) - 2 * x + (d === 0 ? 0 : 2 * d * Math.atan(x / d));
}

/** Capacitance per length, F/m. */
function capacitance(w: number, h: number, eps_r: number, count: number): number {
  const edges = Array.from({ length: count + 1 }, (_, i) => (-w / 2) * Math.cos((Math.PI * i) / count));
  const K = (1 - eps_r) / (1 + eps_r);
  const potential = (x: number, a: number, b: number): number => {
    const over = (d: number): number => integral(b - x, d) - integral(a - x, d);
    let sum = 0;
    for (let n = 1, weight = 1; n <= 400 && Math.abs(weight) > 1e-9; n++, weight *= K)
      sum += weight * (over(2 * n * h) - over(2 * (n - 1) * h));
    return sum / (2 * Math.PI * epsilon_0 * (1 + eps_r) * (b - a));
  };
  const matrix = edges.slice(1).map((_, i) => {
    const middle = ((edges[i] as number) + (edges[i + 1] as number)) / 2;
    return [...edges.slice(1).map((_, j) => potential(middle, edges[j] as number, edges[j + 1] as number)), 1];
  });
  return solve(matrix).reduce((a, b) => a + b);
}

/** Gaussian elimination with row exchange of an augmented matrix. */
function solve(m: number[][]): number[] {
  const n = m.length;
  for (let k = 0; k < n; k++) {
    const best = m.slice(k).reduce((at, row, i) => (Math.abs(row[k] as number) > Math.abs(m[at]?.[k] as number) ? i + k : at), k);
    [m[k], m[best]] = [m[best] as number[], m[k] as number[]];
    const pivot = m[k] as number[];
    for (let i = k + 1; i < n; i++) {
      const row = m[i] as number[];
      const factor = (row[k] as number) / (pivot[k] as number);
      for (let j = k; j <= n; j++) row[j] = (row[j] as number) - factor * (pivot[j] as number);
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    const row = m[i] as number[];
    let rest = row[n] as number;
    for (let j = i + 1; j < n; j++) rest -= (row[j] as number) * (x[j] as number);
    x[i] = rest / (row[i] as number);
  }
  return x;
}

/** Impedance (Ω) and effective permittivity of a strip without thickness. */
export function stripByMoments(w: number, h: number, eps_r: number, count = 40): { readonly Z: number; readonly eps_e: number } {
  const [filled, air] = [capacitance(w, h, eps_r, count), capacitance(w, h, 1, count)];
  return { Z: 1 / (c * Math.sqrt(filled * air)), eps_e: filled / air };
}
