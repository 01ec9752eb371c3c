/**
 * Direct current in a rectangular plane between two round contacts: the potential of a point source in a sheet with
 * insulated edges, by images across the strip of width a (summed in closed form: Σ e^(−mγ)·cos(mθ)/m =
 * −½·ln(1 − 2·e^(−γ)·cos θ + e^(−2γ))) and repeated along b. Contacts are small against their distances: each is an
 * equipotential circle of its own field, undisturbed by the other. Left out: holes and slots, current crowding at the
 * via's pad, frequency (above board.resistiveCorner the return follows the trace instead).
 */
import { exp, ln, sin } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

/** a along x, b along y, m; corner at the origin. */
export interface Sheet {
  readonly a: number;
  readonly b: number;
}

export interface PlanePoint {
  readonly x: number;
  readonly y: number;
}

/** Repetitions along b: each is e^(−2π) or less of the one before, as a is the shorter side. */
const repetitions = 6;

/** Resistance in squares between contacts of radius r (m) at two points. */
export function contactSquares(sheet: Sheet, r: number, from: PlanePoint, to: PlanePoint): number {
  checkContacts(sheet, r, [from, to]);
  return potential(sheet, from, from, r) + potential(sheet, to, to, r) - 2 * potential(sheet, from, to, r);
}

/**
 * Voltage between two points, in squares times the current that flows from the one contact to the other: where a point
 * lies within r of a contact it has the contact's potential.
 */
export function transferSquares(
  sheet: Sheet,
  r: number,
  path: readonly [PlanePoint, PlanePoint],
  sense: readonly [PlanePoint, PlanePoint],
): number {
  checkContacts(sheet, r, path);
  checkInside(sheet, 0, sense, "point");
  const at = (point: PlanePoint): number => potential(sheet, path[0], point, r) - potential(sheet, path[1], point, r);
  return at(sense[0]) - at(sense[1]);
}

/** Potential at `point` of a unit source at `source`, in squares, with the mean over the sheet taken off. */
function potential(sheet: Sheet, source: PlanePoint, point: PlanePoint, r: number): number {
  if (sheet.a > sheet.b) return potential({ a: sheet.b, b: sheet.a }, turned(source), turned(point), r);
  const { a, b } = sheet;
  const apart = Math.sqrt((point.x - source.x) * (point.x - source.x) + (point.y - source.y) * (point.y - source.y));
  const [dx, dy] = apart < r ? [r, 0] : [point.x - source.x, Math.abs(point.y - source.y)];
  const [sx, sy] = [point.x + source.x, point.y + source.y];
  const upper = Math.max(point.y, source.y);
  const mean = (b / a) * (1 / 3 + (point.y * point.y + source.y * source.y) / (2 * b * b) - upper / b);
  const [across, image] = [chord((Math.PI / a) * dx), chord((Math.PI / a) * sx)];
  const fade = exp((-2 * Math.PI * b) / a);
  // One logarithm of the product of all 1 − 2·e·cos θ + e², most of which are nearly 1.
  let product = 1;
  for (const g of [dy, sy, 2 * b - sy, 2 * b - dy]) {
    let e = exp((-Math.PI * g) / a);
    for (let n = 0; n <= repetitions; n++) {
      const square = (1 - e) * (1 - e);
      product *= (square + e * across) * (square + e * image);
      e *= fade;
    }
  }
  return mean - ln(product) / (4 * Math.PI);
}

/** 2 − 2·cos θ: 1 − 2·e·cos θ + e² is (1 − e)² and e times it, without cancellation where e is near 1 and θ near 0. */
function chord(theta: number): number {
  const half = sin(theta / 2);
  return 4 * half * half;
}

function turned({ x, y }: PlanePoint): PlanePoint {
  return { x: y, y: x };
}

function checkContacts({ a, b }: Sheet, r: number, contacts: readonly PlanePoint[]): void {
  if (!(r > 0)) throw new WorkingsError("not-finite", `a contact's radius must be above 0 m; got ${r} m`);
  checkInside({ a, b }, r, contacts, "contact, with its radius,");
}

function checkInside({ a, b }: Sheet, margin: number, points: readonly PlanePoint[], what: string): void {
  const outside = points.find(({ x, y }) => !(Math.min(x, y) >= margin && x <= a - margin && y <= b - margin));
  if (outside === undefined) return;
  throw new WorkingsError(
    "not-finite",
    `the ${what} at (${outside.x} m, ${outside.y} m) is not inside the plane of ${a} m × ${b} m; place it from the plane's corner`,
  );
}
