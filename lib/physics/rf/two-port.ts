/**
 * Two-ports by chain matrices: [V_1; I_1] = [A B; C D]·[V_2; I_2] with I_2 out of the second port; a cascade is a
 * product. Insertion loss compares the load's voltage without and with the network; S-parameters are those of power
 * waves, which allow complex port impedances (K. Kurokawa, IEEE Trans. MTT 13, 1965, 194; D. A. Frickey, IEEE Trans.
 * MTT 42, 1994, 205; from memory).
 */
import { add, type Complex, conjugate, divide, magnitude, multiply, scale, subtract, unity, zero } from "../numerics/complex";
import { admittance, impedance, type Part } from "./parts";

/** A part in the line or from the line to ground, in the order from source to load. */
export interface Section {
  readonly place: "series" | "shunt";
  readonly part: Part;
}

/** A chain matrix; B in Ω, C in S. */
export interface TwoPort {
  readonly A: Complex;
  readonly B: Complex;
  readonly C: Complex;
  readonly D: Complex;
}

export interface Scattering {
  readonly S11: Complex;
  readonly S12: Complex;
  readonly S21: Complex;
  readonly S22: Complex;
}

/** A two-port that is not there. */
export const through: TwoPort = { A: unity, B: zero, C: zero, D: unity };

export function seriesTwoPort(Z: Complex): TwoPort {
  return { ...through, B: Z };
}

export function shuntTwoPort(Y: Complex): TwoPort {
  return { ...through, C: Y };
}

/** The two-port of `first` followed by `second`. */
export function cascade(first: TwoPort, second: TwoPort): TwoPort {
  const entry = (a: Complex, b: Complex, c: Complex, d: Complex): Complex => add(multiply(a, b), multiply(c, d));
  return {
    A: entry(first.A, second.A, first.B, second.C),
    B: entry(first.A, second.B, first.B, second.D),
    C: entry(first.C, second.A, first.D, second.C),
    D: entry(first.C, second.B, first.D, second.D),
  };
}

/** The two-port of a chain of parts at f (Hz, > 0). */
export function chainTwoPort(chain: readonly Section[], f: number): TwoPort {
  return chain.reduce<TwoPort>((sum, { place, part }) => {
    return cascade(sum, place === "series" ? seriesTwoPort(impedance(part, f)) : shuntTwoPort(admittance(part, f)));
  }, through);
}

/** A·Z_L + B + C·Z_S·Z_L + D·Z_S, the common denominator of what follows, Ω. */
function loaded({ A, B, C, D }: TwoPort, Z_S: Complex, Z_L: Complex): Complex {
  return add(add(multiply(A, Z_L), B), multiply(Z_S, add(multiply(C, Z_L), D)));
}

/**
 * Insertion loss between Z_S and Z_L (Ω) as a ratio of load voltages without and with the network: > 1 for a loss,
 * < 1 where the network transforms or resonates in favour of the load.
 */
export function insertionRatio(two: TwoPort, Z_S: Complex, Z_L: Complex): number {
  return magnitude(loaded(two, Z_S, Z_L)) / magnitude(add(Z_S, Z_L));
}

/** Load voltage over source voltage (electromotive force). */
export function voltageTransfer(two: TwoPort, Z_S: Complex, Z_L: Complex): Complex {
  return divide(Z_L, loaded(two, Z_S, Z_L));
}

/** S-parameters for port impedances Z_1 and Z_2 (Ω, real parts > 0). */
export function scattering(two: TwoPort, Z_1: Complex, Z_2: Complex): Scattering {
  const { A, B, C, D } = two;
  const whole = loaded(two, Z_1, Z_2);
  const root = 2 * Math.sqrt(Z_1.re * Z_2.re);
  const [W_1, W_2] = [conjugate(Z_1), conjugate(Z_2)];
  const input = subtract(add(multiply(A, Z_2), B), multiply(W_1, add(multiply(C, Z_2), D)));
  const output = subtract(add(multiply(D, Z_1), B), multiply(W_2, add(multiply(C, Z_1), A)));
  const determinant = subtract(multiply(A, D), multiply(B, C));
  return {
    S11: divide(input, whole),
    S12: divide(scale(determinant, root), whole),
    S21: divide(scale(unity, root), whole),
    S22: divide(output, whole),
  };
}
