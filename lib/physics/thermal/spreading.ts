/**
 * Heat from a small source on a plate that is cooled evenly on its other side: the closed form of S. Lee, S. Song, V. Au and
 * K. P. Moran, "Constriction/spreading resistance model for electronics packaging", Proc. 4th ASME/JSME Thermal
 * Engineering Joint Conference 4 (1995) 199 (from memory), for a round source in the middle of a round plate; other shapes
 * by their areas. Against the exact series 13 % or less off where h·b/k, b the plate's radius, is 0.1 or less, as of metals;
 * of poor conductors such as bare laminate up to a third too much. The source gives its heat off evenly; the rim sheds nothing.
 */
import { tanh } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

/** Areas of source and plate m², thickness m, conductivity W/(m·K), coefficient of the far side W/(m²·K). */
export interface HeatedPlate {
  readonly A_s: number;
  readonly A_p: number;
  readonly t: number;
  readonly k: number;
  readonly h: number;
}

/** K/W: spreading to the hottest place and to the source's mean; through the plate; to the air; all to the hottest. */
export interface Spreading {
  readonly R_max: number;
  readonly R_avg: number;
  readonly R_t: number;
  readonly R_h: number;
  readonly R: number;
}

/** Throws "nominal-domain" for a source larger than the plate. */
export function spreading({ A_s, A_p, t, k, h }: HeatedPlate): Spreading {
  if (!(A_s > 0 && A_s <= A_p)) {
    throw new WorkingsError(
      "nominal-domain",
      `a source of ${A_s} m² does not fit a plate of ${A_p} m²; it is above 0 and at most the plate`,
    );
  }
  const a = Math.sqrt(A_s / Math.PI);
  const b = Math.sqrt(A_p / Math.PI);
  const epsilon = a / b;
  const lambda = Math.PI + 1 / (Math.sqrt(Math.PI) * epsilon);
  const loss = (lambda * k) / (h * b);
  const through = tanh((lambda * t) / b);
  const phi = (through + loss) / (1 + loss * through);
  const rest = 1 - epsilon;
  const R_max = (rest * phi) / (Math.PI * k * a);
  const R_avg = (rest * Math.sqrt(rest) * phi) / (2 * Math.sqrt(Math.PI) * k * a);
  const [R_t, R_h] = [t / (k * A_p), 1 / (h * A_p)];
  return { R_max, R_avg, R_t, R_h, R: R_max + R_t + R_h };
}
