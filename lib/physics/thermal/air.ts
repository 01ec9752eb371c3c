/**
 * Natural convection of a warm body in still air. Of a whole box: `boxConvection`. Of each face as if it stood alone, after
 * G. D. Raithby and K. G. T. Hollands, "Natural convection", Handbook of Heat Transfer, 3rd edition (1998), chapter 4 (from memory): thin-layer laws with the correction
 * for thick boundary layers that small bodies have, where the simple fourth-root laws say too little. The warm air of one face
 * that flows along the next is left out: the faces of a box summed shed up to two fifths more than the box. Rayleigh numbers:
 * vertical 0.1 to 1e9 (laminar), up 1 to 1e10, down 1e3 to 1e10.
 *
 * Air at sea level after the U.S. Standard Atmosphere (1976): Sutherland's viscosity, its conductivity, ideal gas, 250 K
 * to 400 K. At altitude natural convection falls as the square root of the pressure.
 */
import { cbrt, ln } from "../../quantity/elementary";
import { power } from "../../quantity/power";

const fall = 9.80665;
const pressure = 101325;
const gasConstant = 287.053;
const heat = 1006;

/** Of dry air at T (K): conductivity W/(m·K), kinematic viscosity m²/s, Prandtl number. */
export interface Air {
  readonly k: number;
  readonly nu: number;
  readonly Pr: number;
}

export function airAt(T: number): Air {
  const rise = T * Math.sqrt(T);
  const mu = (1.458e-6 * rise) / (T + 110.4);
  const k = (2.64638e-3 * rise) / (T + 245.4 * power(10, -12 / T));
  return { k, nu: (mu * gasConstant * T) / pressure, Pr: (mu * heat) / k };
}

export interface Faces {
  /** Coefficients, W/(m²·K). */
  readonly side: number;
  readonly top: number;
  readonly bottom: number;
  /** Rayleigh numbers of the sides and of the level faces. */
  readonly Ra_s: number;
  readonly Ra_l: number;
}

/**
 * Natural convection of faces at T_s in air at T_a (K): H is the height of the sides, L the area over the perimeter of the
 * level faces (m). Air is taken midway. What looks up while colder than the air is what looks down while warmer.
 */
export function convection(H: number, L: number, T_s: number, T_a: number): Faces {
  const { k, Pr, lift } = airBetween(T_s, T_a);
  const [Ra_s, Ra_l] = [lift * H * H * H, lift * L * L * L];
  const plate = 0.671 / power(1 + power(0.492 / Pr, 9 / 16), 4 / 9);
  const side = (thick(2, plate * fourthRoot(Ra_s)) * k) / H;
  const up = (joined(thick(1.4, 0.835 * plate * fourthRoot(Ra_l)), 0.14 * cbrt(Ra_l)) * k) / L;
  const down = (thick(2.5, (0.527 * power(Ra_l, 0.2)) / power(1 + power(1.9 / Pr, 0.9), 2 / 9)) * k) / L;
  const [top, bottom] = T_s < T_a ? [down, up] : [up, down];
  return { side, top, bottom, Ra_s, Ra_l };
}

/** Sides of a box, m: a and b level, H its height. */
export interface BoxSides {
  readonly a: number;
  readonly b: number;
  readonly H: number;
}

/** The body's G in `boxConvection`: 2^(1/8)·(0.625·l^(4/3)·w + H·(l + w)^(4/3))^(3/4)/(H·w + H·l + l·w)^(7/8), l the longer level side. */
function bodyShape({ a, b, H }: BoxSides): number {
  const [l, w] = [Math.max(a, b), Math.min(a, b)];
  const flow = 0.625 * l * cbrt(l) * w + H * (l + w) * cbrt(l + w);
  return (power(2, 1 / 8) * power(flow, 3 / 4)) / power(H * w + H * l + l * w, 7 / 8);
}

/**
 * Coefficient of natural convection h, W/(m²·K), of an upright box of the surface A (m²) in air at T_a (K), as a function of the surface's
 * temperature T_s (K); whichever its edges. Nusselt number h·√A/k of the box as a whole (S. Lee, M. M. Yovanovich, K. Jafarpur,
 * J. Thermophysics and Heat Transfer 5, 1991, 208; from memory): Nu = Nu_0 + F(Pr)·G·Ra^¼, F = 0.670/(1 + (0.5/Pr)^(9/16))^(4/9), √A the
 * length. Nu_0, conduction alone, is 3.388 of a cube; of a thin plate 3.19, of a sphere 3.545.
 */
export function boxConvection(sides: BoxSides, A: number, T_a: number): (T_s: number) => number {
  const G = bodyShape(sides);
  const length = Math.sqrt(A);
  return (T_s) => {
    const { k, Pr, lift } = airBetween(T_s, T_a);
    const flow = 0.67 / power(1 + power(0.5 / Pr, 9 / 16), 4 / 9);
    return ((3.388 + flow * G * fourthRoot(lift * A * length)) * k) / length;
  };
}

/** Air midway, and g·β·ΔT/(ν·α) in 1/m³: the Rayleigh number over the length cubed. */
function airBetween(T_s: number, T_a: number): Air & { readonly lift: number } {
  const film = (T_s + T_a) / 2;
  const { k, nu, Pr } = airAt(film);
  // Named one by one: a spread costs as much as the laws
  return { k, nu, Pr, lift: ((fall * Math.abs(T_s - T_a)) / film / nu / nu) * Pr };
}

/** Nusselt number from that of a thin layer. */
function thick(limit: number, thin: number): number {
  return thin === 0 ? 0 : limit / ln(1 + limit / thin);
}

/** Laminar and turbulent flow above a level face, which share it. */
function joined(calm: number, turbulent: number): number {
  return power(power(calm, 10) + power(turbulent, 10), 0.1);
}

function fourthRoot(x: number): number {
  return Math.sqrt(Math.sqrt(x));
}
