/** Sampling a formula: drawing ten givens, thirty operations, two quantiles; one thread. */
import { compile, type EvalFunction } from "mathjs";
import { Evaluation } from "../../lib/analysis/evaluation";
import { normalQuantile } from "../../lib/analysis/normal";
import { quantile } from "../../lib/analysis/quantile";
import { hashText } from "../../lib/graph/hash";
import { type Contender, takeTurns, timed } from "./measure";
import { PythonPeer, pythonWith } from "./python";
import { fasterThan, type Row, slowerThan } from "./row";
import { givens, stageGraph, symbols, text } from "./stage";

const samples = 1_000_000;
const blockRows = 1024;

export async function monteCarloRows(): Promise<Row[]> {
  const memory = memoryOfFirstRun();
  const python = pythonWith("numpy");
  const peer = python === undefined ? undefined : new PythonPeer(python, numpyScript, [String(samples), JSON.stringify(givens)]);
  const ours: Contender = { name: "Workings", run: () => timed(workings) };
  const times = await takeTurns(
    [
      ours,
      { name: "hand-written block loop", run: () => timed(blockLoop) },
      { name: "hand-written loop, a sample at a time", run: () => timed(plainLoop) },
      // Its draws are others, so its quantiles are near, not equal.
      ...(peer ? [{ name: "numpy, whole arrays", within: 5e-3, run: () => peer.ask() }] : []),
    ],
    9,
  );
  peer?.close();
  const compiled = compile(text);
  // Slow enough to have turns of its own.
  const [, mathjs] = await takeTurns([ours, { name: "mathjs compiled", run: () => timed(() => mathjsLoop(compiled)) }], 3);
  const all = [...times, ...(mathjs ? [mathjs] : [])];
  return [
    {
      title: "Monte Carlo of a formula of 10 givens and 30 operations: 10⁶ samples, drawn, with two quantiles, one thread",
      unit: "ms",
      times: all,
      criteria: [
        ...slowerThan(all, "hand-written block loop", 1.15),
        ...fasterThan(all, "mathjs compiled", 15),
        ...fasterThan(all, "numpy, whole arrays", 1),
      ],
      notes: [memory, ...(peer ? [] : ["numpy is not installed here"])],
    },
  ];
}

/** Before any peer has run in this process. */
function memoryOfFirstRun(): string {
  const before = process.memoryUsage().rss;
  workings();
  const growth = Math.max(0, process.resourceUsage().maxRSS * 1024 - before);
  return `memory: a first run of Workings adds ${Math.round(growth / 1e6)} MB to the process at its peak, ${(8 * samples) / 1e6} MB of it the samples`;
}

function workings(): number[] {
  const { low, high } = new Evaluation(stageGraph(), { samples }).intervalAt("y", {});
  return [low, high];
}

function quantiles(values: Float64Array): number[] {
  return [quantile(values, 0.025), quantile(values, 0.975)];
}

/** Value i of a given's stream in (0, 1), by the same hash as the library's, written out. */
function uniform(i: number, first: number, second: number): number {
  let x = (i + first) | 0;
  x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
  x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
  x = ((x ^ (x >>> 15)) + second) | 0;
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
  return ((x ^ (x >>> 16)) >>> 0) * 2.3283064365386963e-10 + 1.1641532182693481e-10;
}

type Draw = (out: Float64Array, start: number, n: number) => void;

/** Draws of each given, in the order of `symbols`. */
function drawers(): Draw[] {
  return symbols.map((symbol) => {
    const { nominal, half = 0, sigma } = givens[symbol] as { nominal: number; half?: number; sigma?: number };
    const words = hashText(`1 ${symbol}`);
    const first = words[0] | 0;
    const second = words[1] | 0;
    if (sigma !== undefined)
      return (out, start, n) => {
        for (let i = 0; i < n; i++) out[i] = nominal + sigma * normalQuantile(uniform(start + i, first, second));
      };
    const low = nominal - half;
    const width = nominal + half - low;
    return (out, start, n) => {
      for (let i = 0; i < n; i++) out[i] = low + width * uniform(start + i, first, second);
    };
  });
}

type Block = Float64Array;
const add = (out: Block, a: Block, b: Block, n: number) => {
  for (let i = 0; i < n; i++) out[i] = (a[i] as number) + (b[i] as number);
};
const subtract = (out: Block, a: Block, b: Block, n: number) => {
  for (let i = 0; i < n; i++) out[i] = (a[i] as number) - (b[i] as number);
};
const multiply = (out: Block, a: Block, b: Block, n: number) => {
  for (let i = 0; i < n; i++) out[i] = (a[i] as number) * (b[i] as number);
};
const divide = (out: Block, a: Block, b: Block, n: number) => {
  for (let i = 0; i < n; i++) out[i] = (a[i] as number) / (b[i] as number);
};
const shift = (out: Block, a: Block, b: number, n: number) => {
  for (let i = 0; i < n; i++) out[i] = (a[i] as number) + b;
};
const negate = (out: Block, a: Block, n: number) => {
  for (let i = 0; i < n; i++) out[i] = -(a[i] as number);
};
const root = (out: Block, a: Block, n: number) => {
  for (let i = 0; i < n; i++) out[i] = Math.sqrt(a[i] as number);
};
const exponential = (out: Block, a: Block, n: number) => {
  for (let i = 0; i < n; i++) out[i] = Math.exp(a[i] as number);
};

/** Operation by operation over blocks that stay in the cache. */
function blockLoop(): number[] {
  const draws = drawers();
  const [G, V, F, R, a, T, L, w, N, C] = draws.map(() => new Float64Array(blockRows)) as Block[] as [
    Block,
    Block,
    Block,
    Block,
    Block,
    Block,
    Block,
    Block,
    Block,
    Block,
  ];
  const columns = [G, V, F, R, a, T, L, w, N, C];
  const [x, y, z] = [new Float64Array(blockRows), new Float64Array(blockRows), new Float64Array(blockRows)];
  const result = new Float64Array(samples);
  for (let start = 0; start < samples; start += blockRows) {
    const n = Math.min(blockRows, samples - start);
    for (const [k, draw] of draws.entries()) draw(columns[k] as Block, start, n);
    // z = G*(V - F)/(R*(1 + a*(T - 25)))
    subtract(z, V, F, n);
    multiply(z, G, z, n);
    shift(x, T, -25, n);
    multiply(x, a, x, n);
    shift(x, x, 1, n);
    multiply(x, R, x, n);
    divide(z, z, x, n);
    // + L*w*(V + F)/(R + w*L)
    multiply(x, L, w, n);
    add(y, V, F, n);
    multiply(x, x, y, n);
    multiply(y, w, L, n);
    add(y, R, y, n);
    divide(x, x, y, n);
    add(z, z, x, n);
    // - (V - N*T)/(R*sqrt(1 + (w*R*C)^2))
    multiply(x, N, T, n);
    subtract(x, V, x, n);
    multiply(y, w, R, n);
    multiply(y, y, C, n);
    multiply(y, y, y, n);
    shift(y, y, 1, n);
    root(y, y, n);
    multiply(y, R, y, n);
    divide(x, x, y, n);
    subtract(z, z, x, n);
    // + C*w*exp(-a*T)
    negate(x, a, n);
    multiply(x, x, T, n);
    exponential(x, x, n);
    multiply(y, C, w, n);
    multiply(x, y, x, n);
    add(z, z, x, n);
    result.set(n === blockRows ? z : z.subarray(0, n), start);
  }
  return quantiles(result);
}

/** The whole formula for one sample after another, drawn in blocks. */
function plainLoop(): number[] {
  const draws = drawers();
  const columns = draws.map(() => new Float64Array(blockRows));
  const [G, V, F, R, a, T, L, w, N, C] = columns as [Block, Block, Block, Block, Block, Block, Block, Block, Block, Block];
  const result = new Float64Array(samples);
  for (let start = 0; start < samples; start += blockRows) {
    const n = Math.min(blockRows, samples - start);
    for (const [k, draw] of draws.entries()) draw(columns[k] as Block, start, n);
    for (let i = 0; i < n; i++)
      result[start + i] = stage(
        G[i] as number,
        V[i] as number,
        F[i] as number,
        R[i] as number,
        a[i] as number,
        T[i] as number,
        L[i] as number,
        w[i] as number,
        N[i] as number,
        C[i] as number,
      );
  }
  return quantiles(result);
}

function stage(G: number, V: number, F: number, R: number, a: number, T: number, L: number, w: number, N: number, C: number): number {
  return (
    (G * (V - F)) / (R * (1 + a * (T - 25))) +
    (L * w * (V + F)) / (R + w * L) -
    (V - N * T) / (R * Math.sqrt(1 + (w * R * C) ** 2)) +
    C * w * Math.exp(-a * T)
  );
}

function mathjsLoop(compiled: EvalFunction): number[] {
  const columns = drawers().map((draw) => {
    const column = new Float64Array(samples);
    draw(column, 0, samples);
    return column;
  });
  const scope: Record<string, number> = {};
  const result = new Float64Array(samples);
  for (let i = 0; i < samples; i++) {
    for (let k = 0; k < symbols.length; k++) scope[symbols[k] as string] = columns[k]?.[i] as number;
    result[i] = compiled.evaluate(scope) as number;
  }
  return quantiles(result);
}

const numpyScript = `
import json, sys, time
import numpy as np
n, givens = int(sys.argv[1]), json.loads(sys.argv[2])
rng = np.random.default_rng(1)

def draw(nominal, half=None, sigma=None):
    return rng.normal(nominal, sigma, n) if sigma is not None else rng.uniform(nominal - half, nominal + half, n)

for _ in sys.stdin:
    start = time.perf_counter()
    G, V, F, R, a, T, L, w, N, C = [draw(**given) for given in givens.values()]
    y = G*(V - F)/(R*(1 + a*(T - 25))) + L*w*(V + F)/(R + w*L) - (V - N*T)/(R*np.sqrt(1 + (w*R*C)**2)) + C*w*np.exp(-a*T)
    low, high = np.quantile(y, [0.025, 0.975])
    print(json.dumps({"seconds": time.perf_counter() - start, "answer": [low, high]}), flush=True)
`;
