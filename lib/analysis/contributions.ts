/** The uncertainty budget of a result to first order. JCGM 100:2008 5.1.2, 5.2.2 and 8. */
import { Adjoint, centralDifferences } from "../graph/adjoint";
import type { NodeId } from "../graph/node";
import type { State } from "../graph/state";
import { type Correlated, correlatedPairs, varianceParts } from "./covariance";
import { standardUncertainty } from "./distribution";
import type { Contribution } from "./result";
import type { Study } from "./study";

export interface Budget {
  /** Combined standard uncertainty, SI. */
  readonly standardUncertainty: number;
  /** Largest share first. */
  readonly contributions: readonly Contribution[];
}

/** Contributions of the tolerances at the nominal point; ranges have none, since they are not drawn. */
export function budget(study: Study): Budget {
  const { standardUncertainty, sensitivities, shares } = new FirstOrder(study).at(study.nominal);
  const contributions = study.tolerances.map(
    (given, k): Contribution => ({ given: given.id, share: shares[k] as number, sensitivity: sensitivities[k] as number }),
  );
  return { standardUncertainty, contributions: contributions.sort((a, b) => b.share - a.share) };
}

/** A budget that can be asked for at many points: what does not depend on the point is found once. */
export class FirstOrder {
  readonly #study: Study;
  readonly #ids: readonly NodeId[];
  readonly #uncertainties: readonly number[];
  readonly #pairs: readonly Correlated[];
  readonly #adjoint: Adjoint;

  constructor(study: Study) {
    this.#study = study;
    this.#ids = study.tolerances.map((given) => given.id);
    this.#uncertainties = study.tolerances.map(standardUncertainty);
    this.#pairs = correlatedPairs(study.tolerances);
    this.#adjoint = new Adjoint(study.program, study.id, this.#ids);
  }

  /** Combined standard uncertainty, SI; derivatives and shares of the variance in the order of the study's tolerances. */
  at(state: State): {
    readonly standardUncertainty: number;
    readonly sensitivities: readonly number[];
    readonly shares: readonly number[];
  } {
    const sensitivities = this.#sensitivities(state);
    if (this.#pairs.length > 0) return this.#correlated(sensitivities);
    const shares: number[] = new Array(sensitivities.length);
    let variance = 0;
    for (let k = 0; k < sensitivities.length; k++) {
      const part = (sensitivities[k] as number) * (this.#uncertainties[k] as number);
      shares[k] = part * part;
      variance += part * part;
    }
    for (let k = 0; k < shares.length; k++) shares[k] = variance > 0 ? (shares[k] as number) / variance : 0;
    return { standardUncertainty: Math.sqrt(variance), sensitivities, shares };
  }

  #correlated(sensitivities: readonly number[]) {
    const parts = varianceParts(
      sensitivities.map((c, k) => c * (this.#uncertainties[k] as number)),
      this.#pairs,
    );
    const sum = parts.reduce((total, part) => total + part, 0);
    const most = Math.max(...parts.map(Math.abs), 0);
    // What is left of perfect cancellation is rounding.
    const variance = sum > 1e-14 * most ? sum : 0;
    return { standardUncertainty: Math.sqrt(variance), sensitivities, shares: parts.map((part) => (variance > 0 ? part / variance : 0)) };
  }

  /**
   * By differences across models, and where a derivative is infinite (a root at 0): steps of a tenth of the standard uncertainty,
   * long against the noise of a model and short against its curvature.
   */
  #sensitivities(state: State): number[] {
    if (this.#adjoint.isArithmetic) {
      const derivatives = this.#adjoint.derivatives(state);
      if (allFinite(derivatives)) return derivatives;
    }
    const { program, id } = this.#study;
    const steps = this.#uncertainties.map((u) => u / 10);
    return centralDifferences(program, state, id, this.#ids, steps).map((c) => (Number.isFinite(c) ? c : 0));
  }
}

/** x − x is 0 for finite numbers alone. */
function allFinite(values: readonly number[]): boolean {
  let sum = 0;
  for (let k = 0; k < values.length; k++) sum += (values[k] as number) - (values[k] as number);
  return sum === 0;
}
