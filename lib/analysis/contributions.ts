/** The uncertainty budget of a result to first order. JCGM 100:2008 5.1.2, 5.2.2 and 8. */
import { Adjoint, centralDifferences } from "../graph/adjoint";
import type { NodeId } from "../graph/node";
import type { ProgramState } from "../graph/state";
import { type Correlated, correlatedPairs, varianceParts } from "./covariance";
import { standardUncertainty } from "./distribution";
import type { SpreadKind, SpreadPart } from "./kinds";
import type { Contribution } from "./result";
import type { Study } from "./study";

export interface Budget {
  /** Combined standard uncertainty of both kinds of spread, SI. */
  readonly standardUncertainty: number;
  /** Largest share first; a given with both kinds has two. */
  readonly contributions: readonly Contribution[];
}

/** Contributions of the tolerances at the nominal point; ranges have none, since they are not drawn. `parts`: those of the study as evidence has narrowed them. */
export function budget(study: Study, parts: readonly SpreadPart[] = study.parts): Budget {
  const { standardUncertainty, sensitivities, shares } = new FirstOrder(study, parts).at(study.nominal);
  const contributions = parts.map(
    ({ given, kind }, k): Contribution => ({
      given,
      share: shares[k] as number,
      sensitivity: sensitivities[k] as number,
      ...(kind === "knowledge" && { kind }),
    }),
  );
  return { standardUncertainty, contributions: contributions.sort((a, b) => b.share - a.share) };
}

/** Contributions of one kind of spread, each as a share of the variance of that kind; `size`: the share of the kind in the whole variance. */
export interface ContributionGroup {
  readonly kind: SpreadKind;
  readonly size: number;
  readonly contributions: readonly Contribution[];
}

/** The groups that there are, production first. */
export function contributionGroups(contributions: readonly Contribution[]): readonly ContributionGroup[] {
  return (["production", "knowledge"] as const).flatMap((kind) => {
    const own = contributions.filter((one) => (one.kind ?? "production") === kind);
    const size = own.reduce((sum, { share }) => sum + share, 0);
    if (own.length === 0) return [];
    return [{ kind, size, contributions: own.map((one) => ({ ...one, share: size > 0 ? one.share / size : 0 })) }];
  });
}

/** A budget that can be asked for at many points: what does not depend on the point is found once. */
export class FirstOrder {
  readonly #study: Study;
  readonly #ids: readonly NodeId[];
  readonly #uncertainties: Float64Array;
  readonly #pairs: readonly Correlated[];
  readonly #adjoint: Adjoint;
  readonly #sensitivities: Float64Array;
  readonly #shares: Float64Array;

  constructor(study: Study, parts: readonly SpreadPart[] = study.parts) {
    this.#study = study;
    this.#ids = parts.map(({ given }) => given);
    this.#uncertainties = Float64Array.from(parts, ({ node }) => standardUncertainty(node));
    this.#pairs = correlatedPairs(parts.map(({ node }) => node));
    this.#adjoint = new Adjoint(study.program, study.id, this.#ids);
    this.#sensitivities = new Float64Array(this.#ids.length);
    this.#shares = new Float64Array(this.#ids.length);
  }

  /**
   * Combined standard uncertainty, SI; derivatives and shares of the variance in the order of the study's parts. Both arrays are
   * written anew by the next call.
   */
  at(state: ProgramState): FirstOrderBudget {
    const budget = this.#adjoint.isArithmetic ? this.#from(this.#adjoint.derivatives(state, this.#sensitivities)) : undefined;
    if (budget !== undefined && Number.isFinite(budget.standardUncertainty)) return budget;
    return this.#from(this.#differences(state));
  }

  #from(sensitivities: Float64Array): FirstOrderBudget {
    if (this.#pairs.length > 0) return this.#correlated();
    const shares = this.#shares;
    const uncertainties = this.#uncertainties;
    let variance = 0;
    for (let k = 0; k < shares.length; k++) {
      const part = (sensitivities[k] as number) * (uncertainties[k] as number);
      shares[k] = part * part;
      variance += part * part;
    }
    for (let k = 0; k < shares.length; k++) shares[k] = variance > 0 ? (shares[k] as number) / variance : 0;
    return { standardUncertainty: Math.sqrt(variance), sensitivities, shares };
  }

  #correlated(): FirstOrderBudget {
    const sensitivities = this.#sensitivities;
    const parts = varianceParts(
      Array.from(sensitivities, (c, k) => c * (this.#uncertainties[k] as number)),
      this.#pairs,
    );
    const sum = parts.reduce((total, part) => total + part, 0);
    const most = Math.max(...parts.map(Math.abs), 0);
    // What is left of perfect cancellation is rounding.
    const variance = sum <= 1e-14 * most ? 0 : sum;
    parts.forEach((part, k) => {
      this.#shares[k] = variance > 0 ? part / variance : 0;
    });
    return { standardUncertainty: Math.sqrt(variance), sensitivities, shares: this.#shares };
  }

  /**
   * By differences across models, and where a derivative is infinite (a root at 0): steps of a tenth of the standard uncertainty,
   * long against the noise of a model and short against its curvature.
   */
  #differences(state: ProgramState): Float64Array {
    const { program, id } = this.#study;
    // A given with both kinds of spread is moved once.
    const widest = new Map<NodeId, number>();
    this.#ids.forEach((given, k) => {
      widest.set(given, Math.max(widest.get(given) ?? 0, this.#uncertainties[k] as number));
    });
    const givens = [...widest.keys()];
    const steps = Array.from(widest.values(), (u) => u / 10);
    const found = new Map(centralDifferences(program, state, id, givens, steps).map((c, k) => [givens[k], Number.isFinite(c) ? c : 0]));
    this.#ids.forEach((given, k) => {
      this.#sensitivities[k] = found.get(given) as number;
    });
    return this.#sensitivities;
  }
}

interface FirstOrderBudget {
  readonly standardUncertainty: number;
  readonly sensitivities: Float64Array;
  readonly shares: Float64Array;
}
