/**
 * Volume and surface of a box with rounded edges and corners, the sum (Minkowski) of a smaller box and a ball: Steiner's
 * polynomial and its derivative. The shell lies between two such boxes, the inner one smaller by the wall
 * on each side. Left out: draft, ribs, openings and the parting line, which are volumes of their own.
 */
import { WorkingsError } from "../../quantity/error";

/** A box and the radius of all its edges and corners, in m. */
export interface RoundedBox {
  readonly L: number;
  readonly W: number;
  readonly H: number;
  readonly r: number;
}

/** m³. Throws "nominal-domain" for a radius above half the shortest side, or below zero. Steiner's formula. */
export function roundedVolume(box: RoundedBox): number {
  const { r } = box;
  const [A, B, C] = coreOf(box);
  return A * B * C + 2 * r * (A * B + B * C + C * A) + Math.PI * r * r * (A + B + C) + (4 / 3) * Math.PI * r * r * r;
}

/** m²: flat faces, quarter cylinders along the edges, eighths of a ball at the corners. Throws as `roundedVolume`. */
export function roundedArea(box: RoundedBox): number {
  const { r } = box;
  const [A, B, C] = coreOf(box);
  return 2 * (A * B + B * C + C * A) + 2 * Math.PI * r * (A + B + C) + 4 * Math.PI * r * r;
}

/** Sides of the box to which the ball is added. */
function coreOf({ L, W, H, r }: RoundedBox): readonly [number, number, number] {
  if (!(r >= 0 && 2 * r <= Math.min(L, W, H))) {
    throw new WorkingsError(
      "nominal-domain",
      `the radius ${r} m does not fit a box of ${L} m by ${W} m by ${H} m; it must be at least 0 and at most half the shortest side`,
    );
  }
  return [L - 2 * r, W - 2 * r, H - 2 * r];
}

/** The cavity of a box with walls t (m): its radius is the outer one less the wall, never negative. */
export function cavity({ L, W, H, r }: RoundedBox, t: number): RoundedBox {
  if (!(t > 0 && 2 * t < Math.min(L, W, H))) {
    throw new WorkingsError(
      "nominal-domain",
      `a wall of ${t} m leaves no cavity in a box of ${L} m by ${W} m by ${H} m; it must be above 0 and below half the shortest side`,
    );
  }
  return { L: L - 2 * t, W: W - 2 * t, H: H - 2 * t, r: Math.max(r - t, 0) };
}
