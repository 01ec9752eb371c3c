/** The first-order uncertainty budget of the same formula: value, ten derivatives, ten shares, combined uncertainty. */
import { compile, derivative } from "mathjs";
import { FirstOrder } from "../../lib/analysis/contributions";
import { Study } from "../../lib/analysis/study";
import { type Contender, takeTurns, timed } from "./measure";
import { PythonPeer, pythonWith } from "./python";
import { fasterThan, type Row, slowerThan } from "./row";
import { nominals, stageGraph, symbols, text, uncertainties } from "./stage";

const calls = 100_000;

export async function budgetRows(): Promise<Row[]> {
  const python = pythonWith("uncertainties");
  const peer = python === undefined ? undefined : new PythonPeer(python, uncertaintiesScript, [JSON.stringify([nominals, uncertainties])]);
  const contenders: Contender[] = [
    { name: "Workings", run: workings() },
    { name: "hand-written adjoint code", run: () => timedBudgets(handWritten, calls) },
    { name: "mathjs derivatives", run: mathjs() },
    ...(peer ? [{ name: "Python uncertainties", run: () => peer.ask() }] : []),
  ];
  const times = await takeTurns(contenders, 9);
  peer?.close();
  return [
    {
      title: "First-order budget of the same formula: value, ten derivatives, ten shares, at a point that moves each time",
      unit: "µs",
      times,
      criteria: [...slowerThan(times, "hand-written adjoint code", 3), ...fasterThan(times, "mathjs derivatives", 100)],
      notes: peer ? [] : ["uncertainties is not installed here"],
    },
  ];
}

type Ten = readonly [number, number, number, number, number, number, number, number, number, number];

/** The point moves in R from call to call and ends at the same place for everyone. */
const moved = (call: number): number => 270 + (call % 8) / 8;

/** Budgets of a function that writes [value, uncertainty, shares] into `out`. */
function timedBudgets(budget: (R: number, out: number[]) => void, count: number) {
  const out: number[] = new Array(2 + symbols.length).fill(0);
  let call = 0;
  return timed(
    () => {
      budget(moved(call++), out);
      return out;
    },
    { calls: count },
  );
}

function workings() {
  const study = new Study(stageGraph(), "y");
  const firstOrder = new FirstOrder(study);
  const order = symbols.map((symbol) => study.tolerances.findIndex(({ id }) => id === symbol));
  const change = new Map<string, number>();
  return () =>
    timedBudgets((R, out) => {
      change.set("R", R);
      study.program.update(change);
      const { standardUncertainty, shares } = firstOrder.at(study.nominal);
      out[0] = study.program.value("y") as number;
      out[1] = standardUncertainty;
      for (let k = 0; k < order.length; k++) out[2 + k] = shares[order[k] as number] as number;
    }, calls);
}

const point = [...nominals];

/** Forwards, then backwards, by hand. */
function handWritten(moved: number, out: number[]): void {
  point[3] = moved;
  const [G, V, F, R, a, T, L, w, N, C] = point as unknown as Ten;
  const drop = V - F;
  const warm = 1 + a * (T - 25);
  const first = (G * drop) / (R * warm);
  const sum = V + F;
  const reactance = w * L;
  const loop = R + reactance;
  const second = (reactance * sum) / loop;
  const left = V - N * T;
  const corner = w * R * C;
  const size = Math.sqrt(1 + corner * corner);
  const third = left / (R * size);
  const decay = Math.exp(-a * T);
  const fourth = C * w * decay;
  const value = first + second - third + fourth;

  const dWarm = -first / warm;
  const dReactance = sum / loop - second / loop;
  const dSum = reactance / loop;
  const dLeft = -1 / (R * size);
  const dCorner = ((third / size) * corner) / size;
  const dDrop = G / (R * warm);
  const derivatives = [
    drop / (R * warm),
    dDrop + dSum + dLeft,
    dSum - dDrop,
    -first / R - second / loop + third / R + dCorner * w * C,
    dWarm * (T - 25) - fourth * T,
    dWarm * a - dLeft * N - fourth * a,
    dReactance * w,
    dReactance * L + dCorner * R * C + C * decay,
    -dLeft * T,
    dCorner * w * R + w * decay,
  ];
  report(value, derivatives, out);
}

function report(value: number, derivatives: readonly number[], out: number[]): void {
  let variance = 0;
  for (let k = 0; k < derivatives.length; k++) {
    const part = (derivatives[k] as number) * (uncertainties[k] as number);
    out[2 + k] = part * part;
    variance += part * part;
  }
  out[0] = value;
  out[1] = Math.sqrt(variance);
  for (let k = 0; k < derivatives.length; k++) out[2 + k] = (out[2 + k] as number) / variance;
}

function mathjs() {
  const value = compile(text);
  const derivatives = symbols.map((symbol) => derivative(text, symbol).compile());
  const scope: Record<string, number> = Object.fromEntries(symbols.map((symbol, k) => [symbol, nominals[k] as number]));
  return () =>
    timedBudgets((R, out) => {
      scope.R = R;
      report(
        value.evaluate(scope) as number,
        derivatives.map((one) => one.evaluate(scope) as number),
        out,
      );
    }, 800);
}

const uncertaintiesScript = `
import json, sys, time
from uncertainties import ufloat, umath
nominals, deviations = json.loads(sys.argv[1])

def budget(R):
    values = list(nominals)
    values[3] = R
    givens = [ufloat(value, deviation) for value, deviation in zip(values, deviations)]
    G, V, F, R, a, T, L, w, N, C = givens
    y = G*(V - F)/(R*(1 + a*(T - 25))) + L*w*(V + F)/(R + w*L) - (V - N*T)/(R*umath.sqrt(1 + (w*R*C)**2)) + C*w*umath.exp(-a*T)
    parts = y.error_components()
    variance = y.std_dev**2
    return [y.nominal_value, y.std_dev] + [parts[given]**2/variance for given in givens]

for _ in sys.stdin:
    start = time.perf_counter()
    for call in range(800):
        answer = budget(270 + (call % 8)/8)
    print(json.dumps({"seconds": (time.perf_counter() - start)/800, "answer": answer}), flush=True)
`;
