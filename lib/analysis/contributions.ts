/** The uncertainty budget of a result to first order. JCGM 100:2008 5.1.2 and 8, uncorrelated inputs. */
import { Adjoint, centralDifferences } from "../graph/adjoint";
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
  const { tolerances } = study;
  const uncertainties = tolerances.map(standardUncertainty);
  const sensitivities = sensitivitiesOf(study, uncertainties);
  const variances = sensitivities.map((c, k) => c * (uncertainties[k] as number) * (c * (uncertainties[k] as number)));
  const variance = variances.reduce((a, b) => a + b, 0);
  const contributions = tolerances.map(
    (given, k): Contribution => ({
      given: given.id,
      share: variance > 0 ? (variances[k] as number) / variance : 0,
      sensitivity: sensitivities[k] as number,
    }),
  );
  return { standardUncertainty: Math.sqrt(variance), contributions: contributions.sort((a, b) => b.share - a.share) };
}

/**
 * By differences across models, and where a derivative is infinite (a root at 0): steps of a tenth of the standard uncertainty, long against the noise of a model
 * and short against its curvature.
 */
function sensitivitiesOf(study: Study, uncertainties: readonly number[]): number[] {
  const ids = study.tolerances.map((given) => given.id);
  const adjoint = new Adjoint(study.program, study.id, ids);
  const derivatives = adjoint.isArithmetic ? adjoint.derivatives(study.nominal) : [];
  if (adjoint.isArithmetic && derivatives.every(Number.isFinite)) return derivatives;
  return centralDifferences(
    study.program,
    study.nominal,
    study.id,
    ids,
    uncertainties.map((u) => u / 10),
  ).map((c) => (Number.isFinite(c) ? c : 0));
}
