/** Alternatives evaluated with one set of formulas, and the decision between them as a switch in the graph. */
import type { Limit } from "../analysis/result";
import type { ChoiceNode, NodeId } from "../graph/node";
import { dimension } from "../quantity/dimension";
import type { Dim } from "../quantity/dimension-types";
import { Quantity } from "../quantity/quantity";
import type { Better, Criterion, DecisionBlock } from "./block";
import { Curve } from "./curve";
import { expectFits, type FitsQuantity } from "./fits";
import type { AnyQuantity, Session } from "./session";
import { sharedMeaning } from "./shared-meaning";

// Curves of whatever dimensions; explicit variance refuses Dim
type Any = any;

/** Results of an alternative: quantities, or records of them. */
export interface Results {
  readonly [name: string]: AnyQuantity | Results;
}

/** R where it is results, else a sentence at what is none. */
export type FitsResults<R> = R extends Results
  ? R
  : R extends AnyQuantity | Curve<Any, Any>
    ? NoResults
    : R extends object
      ? { readonly [K in keyof R]: R[K] extends AnyQuantity | Results ? R[K] : `✗ ${K & string} must be a quantity, or quantities by name` }
      : NoResults;
type NoResults = "✗ return the results by name, as in { R: R }";

export interface Alternative {
  readonly label: string;
}

/** A where it is an alternative, else a sentence. */
export type FitsAlternative<A> = A extends Alternative ? A : "✗ an alternative needs a label";

/** Evaluated alternatives, ready for {@link decide}. */
export interface Alternatives<R> {
  readonly name: string;
  readonly items: readonly { readonly name: string; readonly label: string; readonly results: R }[];
}

interface CriterionOptions {
  readonly label: string;
  /** The lowest value, the highest, or the one that spreads least from unit to unit. */
  readonly better?: Exclude<Better, "nearest">;
  /** Instead: the quantity that the best value is nearest to; it follows the book as any other quantity does. */
  readonly nearest?: unknown;
  /** Id of the requirement whose limit every alternative is held against. */
  readonly requirement?: string;
}

type Quantities<R> = { readonly [K in keyof R as R[K] extends Quantity<infer _ extends Dim> ? K : never]: unknown };

export interface DecideOptions<R extends Results> {
  readonly question: string;
  /** By the name of a quantity that every alternative gives. */
  readonly criteria: { readonly [K in keyof Quantities<R>]?: CriterionOptions };
}

/** Beside {@link DecideOptions}: a sentence at each criterion that is no quantity of the alternatives. */
export interface FitsCriteria<R extends Results, C> {
  readonly criteria: {
    readonly [K in keyof C]: K extends keyof Quantities<R> ? FitsBest<R[K], C[K]> : `✗ the alternatives give no quantity '${K & string}'`;
  };
}

/** A criterion that says once what is best, by a quantity of its own dimension where it is the nearest. */
type FitsBest<Q, O> = O extends { readonly nearest: infer T }
  ? O extends { readonly better: unknown }
    ? { readonly nearest: "✗ say better or nearest, not both" }
    : { readonly nearest: Q extends Quantity<infer D extends Dim> ? FitsQuantity<D, T, "nearest"> : unknown }
  : O extends { readonly better: unknown }
    ? unknown
    : "✗ say what is best: better, or nearest";

/** The results themselves. Throws, in the words of {@link FitsResults}, where a cell returned something else. */
export function expectResults<R extends Results>(session: Session, place: string, results: R): R {
  if (!isRecord(results)) throw session.error("worksheet", `${place}: return the results by name, as in { R: R }`);
  const wrong = Object.entries(results).find(([, value]) => !(value instanceof Quantity || isRecord(value)));
  if (wrong !== undefined) throw session.error("worksheet", `${place}: ${wrong[0]} must be a quantity, or quantities by name`);
  return results;
}

function isRecord(value: unknown): boolean {
  return typeof value === "object" && value !== null && !(value instanceof Quantity || value instanceof Curve);
}

/** Runs `evaluate` once for each alternative, quietly; names derived inside are the alternative's own. */
export function evaluateAlternatives<A extends Alternative, R extends Results>(
  session: Session,
  name: string,
  list: Readonly<Record<string, A>>,
  evaluate: (alternative: A, name: string) => R,
): Alternatives<R> {
  const entries = Object.entries(list);
  if (entries.length < 2) throw session.error("worksheet", `${name} has ${entries.length} alternative; a decision needs two or more`);
  for (const [key, { label }] of entries)
    if (typeof label !== "string") throw session.error("worksheet", `${name}[${key}]: an alternative needs a label`);
  const items = entries.map(([key, alternative]) => ({
    name: key,
    label: alternative.label,
    results: session.within(`${name}[${key}]`, () => expectResults(session, `${name}[${key}]`, evaluate(alternative, key))),
  }));
  return { name, items };
}

/** Shows the trade-off and returns the chosen alternative's results through the switch `decisions.<sheet>.<name>`. */
export function decide<R extends Results>(session: Session, { name, items }: Alternatives<R>, { question, criteria }: DecideOptions<R>): R {
  const path = `decisions.${session.sheet}.${name}`;
  const row = session.design.decision(path);
  const names = items.map((item) => item.name);
  if (!names.includes(row.chosen)) {
    throw session.error(
      "worksheet",
      `${row.place}: ${path} chooses "${row.chosen}"; the alternatives are ${names.map((name) => `"${name}"`).join(", ")}`,
    );
  }
  const choice: ChoiceNode = {
    kind: "choice",
    id: path,
    path,
    dimension: "1",
    unit: "1",
    meaning: question,
    options: names,
    chosen: row.chosen,
    provenance: { source: "decision", place: row.place },
  };
  session.add(choice);
  const alternatives = items.map((item) => ({ name: item.name, label: item.label, values: nodesOf(session, item.results) }));
  const unknown = Object.keys(criteria).find((key) => alternatives.some(({ values }) => !Object.hasOwn(values, key)));
  if (unknown !== undefined) throw session.error("worksheet", `the alternatives give no quantity '${unknown}'`);
  const block: DecisionBlock = {
    type: "decision",
    name,
    question,
    choice: path,
    criteria: Object.entries(criteria as Record<string, CriterionOptions>).map(([key, options]) =>
      criterionOf(session, key, options, alternatives),
    ),
    alternatives,
    reason: row.reason,
    reconsider: row.reconsider,
  };
  const chosen = switched(
    session,
    path,
    name,
    items.map((item) => [item.name, item.results] as const),
  ) as R;
  session.show(block);
  return chosen;
}

function criterionOf(
  session: Session,
  name: string,
  { label, better, nearest, requirement }: CriterionOptions,
  alternatives: DecisionBlock["alternatives"],
): Criterion {
  if (better !== undefined && nearest !== undefined) throw session.error("worksheet", `${name}: say better or nearest, not both`);
  const best = better !== undefined ? { better } : { better: "nearest" as const, target: targetOf(session, name, nearest, alternatives) };
  if (requirement === undefined) return { name, label, ...best };
  const { limit, judged } = session.design.requirement(requirement);
  const held: Limit = limit;
  return { name, label, ...best, limit: { ...held, judged, requirement } };
}

/** The node of the quantity that a criterion is to be nearest to. */
function targetOf(session: Session, name: string, nearest: unknown, [first]: DecisionBlock["alternatives"]): NodeId {
  if (nearest === undefined) throw session.error("worksheet", `${name}: say what is best: better, or nearest`);
  expectFits(session, `${name}: nearest`, dimension(session.node(first?.values[name] ?? "").dimension), nearest);
  return session.enter(nearest as AnyQuantity);
}

function nodesOf(session: Session, results: Results): Record<string, NodeId> {
  const quantities = Object.entries(results).filter((entry): entry is [string, AnyQuantity] => entry[1] instanceof Quantity);
  return Object.fromEntries(quantities.map(([key, quantity]) => [key, session.enter(quantity)]));
}

/** Replaces every quantity by a switch over the same place in each alternative. */
function switched(session: Session, choice: NodeId, scope: string, cases: readonly (readonly [string, Results])[]): Results {
  const [first] = cases;
  if (first === undefined) return {};
  return Object.fromEntries(
    Object.keys(first[1]).map((key) => {
      const inner = cases.map(([name, results]) => [name, results[key]] as const);
      if (inner.every((entry): entry is [string, AnyQuantity] => entry[1] instanceof Quantity)) {
        return [key, switchNode(session, choice, `${scope}.${key}`, inner)];
      }
      return [key, switched(session, choice, `${scope}.${key}`, inner as [string, Results][])];
    }),
  );
}

function switchNode(session: Session, choice: NodeId, name: string, cases: readonly (readonly [string, AnyQuantity])[]): AnyQuantity {
  const nodes = cases.map(([key, quantity]) => [key, session.enter(quantity)] as const);
  const model = session.node(nodes[0]?.[1] ?? "");
  const meaning =
    sharedMeaning(nodes.map(([, id]) => session.node(id).meaning)) ?? `${name.slice(name.lastIndexOf(".") + 1)}, of the chosen alternative`;
  const id = session.define({
    kind: "switch",
    id: session.idOf(name),
    dimension: model.dimension,
    unit: model.unit,
    ...(model.symbol === undefined ? {} : { symbol: model.symbol }),
    meaning,
    choice,
    cases: Object.fromEntries(nodes),
  });
  return session.quantity(id);
}
