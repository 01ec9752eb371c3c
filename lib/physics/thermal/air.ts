/**
 * Natural convection from the faces of a warm body in still air, after G. D. Raithby and K. G. T. Hollands, "Natural
 * convection", Handbook of Heat Transfer, 3rd edition (1998), chapter 4 (from memory): thin-layer laws with the correction
 * for thick boundary layers that small bodies have, where the simple fourth-root laws say too little. Each face as if it
 * stood alone (the warm air of one that flows along the next is left out: some 10 % too much heat). Rayleigh numbers:
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
  const film = (T_s + T_a) / 2;
  const { k, nu, Pr } = airAt(film);
  const lift = ((fall * Math.abs(T_s - T_a)) / film / nu / nu) * Pr;
  const [Ra_s, Ra_l] = [lift * H * H * H, lift * L * L * L];
  const plate = 0.671 / power(1 + power(0.492 / Pr, 9 / 16), 4 / 9);
  const side = (thick(2, plate * fourthRoot(Ra_s)) * k) / H;
  const up = (joined(thick(1.4, 0.835 * plate * fourthRoot(Ra_l)), 0.14 * cbrt(Ra_l)) * k) / L;
  const down = (thick(2.5, (0.527 * power(Ra_l, 0.2)) / power(1 + power(1.9 / Pr, 0.9), 2 / 9)) * k) / L;
  const [top, bottom] = T_s < T_a ? [down, up] : [up, down];
  return { side, top, bottom, Ra_s, Ra_l };
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
