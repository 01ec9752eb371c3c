/**
 * A thin plate by finite differences, a second route to the series: the 13-point biharmonic on nx × ny inner points,
 * edges by mirror points (+1 clamped, −1 simply supported, between with a spring against turning), a banded direct solution. Error of the order of the mesh squared.
 */
export interface Mesh {
  readonly a: number;
  readonly b: number;
  readonly nx: number;
  readonly ny: number;
  readonly mirror: 1 | -1 | { readonly spring: number };
}

/**
 * Weight of the mirror of an inner point beyond an edge: with k_r·a/D = spring·a, the curvature (1 + μ)·w/h² is the slope
 * (1 − μ)·w/(2·h) times k_r/D. `spring` in 1/m.
 */
function mirrorOf(mirror: Mesh["mirror"], h: number): number {
  if (typeof mirror === "number") return mirror;
  const x = (mirror.spring * h) / 2;
  return (x - 1) / (x + 1);
}

/** Share of the area around (x, y), measured from the centre, that is loaded: by 16 × 16 samples. */
export type Inside = (x: number, y: number) => boolean;

const stencil: readonly (readonly [number, number, (x: number, y: number) => number])[] = [
  [0, 0, (x, y) => 6 * x * x + 6 * y * y + 8 * x * y],
  ...[-1, 1].flatMap((s) => [
    [s, 0, (x: number, y: number) => -4 * x * x - 4 * x * y] as const,
    [0, s, (x: number, y: number) => -4 * y * y - 4 * x * y] as const,
  ]),
  ...[-1, 1].flatMap((s) => [[s, 1, (x: number, y: number) => 2 * x * y] as const, [s, -1, (x: number, y: number) => 2 * x * y] as const]),
  ...[-2, 2].flatMap((s) => [[s, 0, (x: number) => x * x] as const, [0, s, (_: number, y: number) => y * y] as const]),
];

/** Deflection at the centre times D over the force, m²; the load is even over where `inside` holds. nx and ny odd. */
export function centreDeflection(mesh: Mesh, inside: Inside): number {
  const { nx, ny } = mesh;
  const { w, total } = deflections(mesh, inside);
  return (w[((ny - 1) / 2) * nx + (nx - 1) / 2] ?? Number.NaN) / total;
}

/** Over the force: moments for each length at the centre across a, and at the middle of an edge of length b (Poisson's ratio nu). */
export function moments(mesh: Mesh, inside: Inside, nu: number): { readonly centre: number; readonly edge: number } {
  const { a, b, nx, ny } = mesh;
  const { w, total } = deflections(mesh, inside);
  const [hx, hy] = [a / (nx + 1), b / (ny + 1)];
  const [i, j] = [(nx - 1) / 2, (ny - 1) / 2];
  const at = (x: number, y: number): number => w[y * nx + x] ?? Number.NaN;
  const bend = (before: number, here: number, after: number, h: number): number => -(before - 2 * here + after) / (h * h);
  const centre = bend(at(i - 1, j), at(i, j), at(i + 1, j), hx) + nu * bend(at(i, j - 1), at(i, j), at(i, j + 1), hy);
  const edge = ((1 + mirrorOf(mesh.mirror, hx)) * at(0, j)) / (hx * hx);
  return { centre: centre / total, edge: edge / total };
}

function deflections(mesh: Mesh, inside: Inside): { readonly w: Float64Array; readonly total: number } {
  const { a, b, nx, ny } = mesh;
  const [hx, hy] = [a / (nx + 1), b / (ny + 1)];
  const at = (i: number, j: number): number => covered(inside, i * hx - a / 2, j * hy - b / 2, hx, hy);
  const load = Float64Array.from({ length: nx * ny }, (_, k) => at((k % nx) + 1, Math.floor(k / nx) + 1));
  // Edge points carry a part of the force that deflects nothing.
  let total = 0;
  for (let i = 0; i < nx + 2; i++) for (let j = 0; j < ny + 2; j++) total += at(i, j) * hx * hy;
  return { w: solve(matrixOf(mesh), load, nx), total };
}

function covered(inside: Inside, x: number, y: number, hx: number, hy: number): number {
  let hits = 0;
  for (let s = 0; s < 256; s++)
    if (inside(x + hx * (((s % 16) + 0.5) / 16 - 0.5), y + hy * ((Math.floor(s / 16) + 0.5) / 16 - 0.5))) hits++;
  return hits / 256;
}

/** Lower half by rows, row r and column r − offset at r·(2nx + 1) + offset. */
function matrixOf({ a, b, nx, ny, mirror }: Mesh): Float64Array {
  const [x, y] = [((nx + 1) / a) ** 2, ((ny + 1) / b) ** 2];
  const [mirrorX, mirrorY] = [mirrorOf(mirror, a / (nx + 1)), mirrorOf(mirror, b / (ny + 1))];
  const width = 2 * nx + 1;
  const matrix = new Float64Array(nx * ny * width);
  for (let row = 0; row < nx * ny; row++) {
    for (const [di, dj, weight] of stencil) {
      const [i, atEdgeX] = place((row % nx) + di, nx);
      const [j, atEdgeY] = place(Math.floor(row / nx) + dj, ny);
      if (i < 0 || j < 0) continue;
      const offset = row - (j * nx + i);
      const sign = atEdgeX ? mirrorX : atEdgeY ? mirrorY : 1;
      if (offset >= 0) matrix[row * width + offset] = (matrix[row * width + offset] ?? 0) + sign * weight(x, y);
    }
  }
  return matrix;
}

/** Index of a point; the edge itself is −1 (no deflection), a point beyond it is its mirror. */
function place(i: number, n: number): readonly [number, boolean] {
  if (i === -1 || i === n) return [-1, false];
  if (i < -1) return [0, true];
  return i > n ? [n - 1, true] : [i, false];
}

function solve(matrix: Float64Array, right: Float64Array, nx: number): Float64Array {
  const width = 2 * nx + 1;
  const x = Float64Array.from(right);
  const at = (row: number, column: number): number => matrix[row * width + row - column] ?? 0;
  for (let row = 0; row < x.length; row++) {
    const first = Math.max(0, row - width + 1);
    for (let column = first; column <= row; column++) {
      let sum = at(row, column);
      for (let k = Math.max(first, column - width + 1); k < column; k++) sum -= at(row, k) * at(column, k);
      matrix[row * width + row - column] = column === row ? Math.sqrt(sum) : sum / at(column, column);
    }
    for (let k = first; k < row; k++) x[row] = (x[row] ?? 0) - at(row, k) * (x[k] ?? 0);
    x[row] = (x[row] ?? 0) / at(row, row);
  }
  for (let row = x.length - 1; row >= 0; row--) {
    x[row] = (x[row] ?? 0) / at(row, row);
    for (let k = Math.max(0, row - width + 1); k < row; k++) x[k] = (x[k] ?? 0) - at(row, k) * (x[row] ?? 0);
  }
  return x;
}
