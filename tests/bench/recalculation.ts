/** One given of a graph of 10⁵ results changes, and all that depends on it, here everything, is computed again. */
import { compile } from "mathjs";
import { parseFormula } from "../../lib/formula/parse";
import { Graph } from "../../lib/graph/graph";
import type { FormulaNode, GivenNode } from "../../lib/graph/node";
import { Program } from "../../lib/graph/program";
import { takeTurns, timed } from "./measure";
import { fasterThan, type Row, slowerThan } from "./row";

const size = 100_000;
const givenCount = 100;
const operations = ["+", "-", "*", "/"] as const;

/** Result i is an earlier result, an operation and a given: no long chain, no order that a cache would like. */
interface Plan {
  /** Index among `operations`. */
  readonly operation: Uint8Array;
  /** Places in a row of givens and results: 0 to 99 the givens. */
  readonly left: Int32Array;
  readonly right: Int32Array;
}

export async function recalculationRows(): Promise<Row[]> {
  const plan = makePlan();
  const last = givenCount + size - 1;
  const times = await takeTurns(
    [
      { name: "Workings", run: workings(plan, last) },
      { name: "hand-written ordered loop", run: handWritten(plan, last) },
      { name: "mathjs compiled", run: mathjs(plan, last) },
    ],
    15,
  );
  return [
    {
      title: "Recalculation after one given has changed, in a graph of 10⁵ results that all depend on it",
      unit: "ms",
      times,
      criteria: [...slowerThan(times, "hand-written ordered loop", 2.5), ...fasterThan(times, "mathjs compiled", 1)],
      notes: [],
    },
  ];
}

/** Numbers of the Lehmer generator of C. A. Park and K. W. Miller (1988), so that every run has the same graph. */
function makePlan(): Plan {
  let state = 1;
  const below = (n: number): number => {
    state = (state * 48271) % 2147483647;
    return state % n;
  };
  const operation = new Uint8Array(size).map(() => below(operations.length));
  const left = new Int32Array(size).map((_, i) => (i === 0 ? 0 : givenCount + below(i)));
  const right = new Int32Array(size).map(() => 1 + below(givenCount - 1));
  return { operation, left, right };
}

/** Nominal values of the givens: near 1, so that no result grows. */
const nominal = (k: number): number => 0.95 + k / 1000;
/** The value of the given that changes, in turn. */
const changed = (call: number): number => 1 + (call % 4) / 100;
const calls = 20;
const name = (place: number): string => (place < givenCount ? `g${place}` : `n${place}`);

/** Every contender's calls end at the same value. */
function changing(recalculate: (value: number) => number, count = calls) {
  return () => {
    let call = 0;
    return timed(() => [recalculate(changed(call++))], { calls: count });
  };
}

function workings({ operation, left, right }: Plan, last: number) {
  const bare = { dimension: "1", unit: "1" };
  const parsed = operations.map((sign) => parseFormula(`a ${sign} b`).expression);
  const givens = Array.from({ length: givenCount }, (_, k): GivenNode => {
    const provenance = { source: "bench" };
    return { ...bare, kind: "given", id: name(k), path: name(k), text: "", nominal: nominal(k), spread: { kind: "exact" }, provenance };
  });
  const formulas = Array.from(operation, (which, i): FormulaNode => {
    const sign = operations[which] as string;
    const args = { a: name(left[i] as number), b: name(right[i] as number) };
    return { ...bare, kind: "formula", id: name(givenCount + i), text: `a ${sign} b`, expression: parsed[which] as never, arguments: args };
  });
  const graph = Graph.from([...givens, ...formulas]);
  const program = Program.compile(
    graph,
    formulas.map(({ id }) => id),
  );
  return changing((value) => {
    program.update(new Map([["g0", value]]));
    return program.value(name(last)) as number;
  });
}

function handWritten({ operation, left, right }: Plan, last: number) {
  const values = new Float64Array(givenCount + size);
  for (let k = 0; k < givenCount; k++) values[k] = nominal(k);
  return changing((value) => {
    values[0] = value;
    for (let i = 0; i < size; i++) {
      const a = values[left[i] as number] as number;
      const b = values[right[i] as number] as number;
      const which = operation[i] as number;
      values[givenCount + i] = which === 0 ? a + b : which === 1 ? a - b : which === 2 ? a * b : a / b;
    }
    return values[last] as number;
  });
}

/** One compiled expression a result, evaluated in order. */
function mathjs({ operation, left, right }: Plan, last: number) {
  const compiled = Array.from(operation, (which, i) =>
    compile(`${name(left[i] as number)} ${operations[which]} ${name(right[i] as number)}`),
  );
  const scope = new Map<string, number>();
  for (let k = 0; k < givenCount; k++) scope.set(name(k), nominal(k));
  return changing((value) => {
    scope.set("g0", value);
    for (let i = 0; i < size; i++) scope.set(name(givenCount + i), compiled[i]?.evaluate(scope) as number);
    return scope.get(name(last)) as number;
  }, 4);
}
