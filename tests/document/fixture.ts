/** A small invented book: one worksheet with every kind of display, as a notebook object. */
import { Evaluation } from "../../lib/analysis/evaluation";
import type { Title } from "../../lib/book/book";
import type { SheetInput } from "../../lib/book/outputs";
import { readDesign } from "../../lib/design/read";
import { parseFormula } from "../../lib/formula/parse";
import { typeset } from "../../lib/formula/typeset";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode, GraphNode, NodeId, TableNode } from "../../lib/graph/node";
import { type Block, type Display, displayType } from "../../lib/sheet/block";
import { storeDisplay } from "../../lib/sheet/stored";

const designText = `product: { name: Lamp, title: A test lamp, revision: B }
sources:
  maker: { type: document, title: Data sheet of the maker, author: [{ family: Someone, given: A. }], issued: { date-parts: [[2020]] } }
  own: { type: document, title: Decided for this lamp }
requirements:
  bright: { statement: "Current through the lamp, any unit", limit: ">= 1.4 mA", judged: worst case, where: at 20 °C }
  cool: { statement: Heat of the resistor, limit: "<= 9 mW", judged: 95 % }
  quiet: { statement: Noise of the lamp, limit: "<= 1 mV", judged: worst case }
decisions:
  lamp:
    rail: { chosen: high, reason: Less spread., reconsider: A lamp of lower voltage. }
givens:
  supply:
    low: { value: 3.3 V ±2 %, meaning: the logic supply, symbol: V_l, source: maker, memory: true }
    high: { value: 4.5 V ±2 %, meaning: the analog supply, symbol: V_h, source: own, note: regulated }
  lamp:
    forward: { value: 2.85 V ±0.12 V, meaning: forward voltage of the lamp, symbol: V_f, source: maker, memory: true }
    current: { value: 2 mA, meaning: current wanted, symbol: I_w, source: own }
    resistor: { value: ±1 %, meaning: tolerance of a resistor, symbol: d_R, source: maker }
    ambient: { value: 25 °C in 5 °C to 40 °C, meaning: ambient temperature, symbol: T_a, source: own }
    drift: { value: -2 mV/K ±10 %, meaning: drift of the forward voltage, symbol: k_T, source: maker }
    curve:
      meaning: current against voltage
      source: maker
      table:
        columns: [voltage in V, current in mA]
        interpolation: log-y
        rows: [[2.6, 0.1], [2.7, 0.5], [2.85, 2], [3.0, 5]]
  pipe:
    length: { value: 12 mm, meaning: length of the pipe, source: own }
    diameter: { value: 3 mm, meaning: diameter of the pipe, source: own }
    wall: { value: 2 mm, meaning: wall of the case, source: own }
    gap: { value: 1 mm, meaning: gap before the pipe, source: own }
    viewing: { value: 60 °, meaning: viewing angle, source: own }
readings:
  first: { result: lamp.current, value: 2.05 mA, specimen: prototype 1, source: own }
`;

export const design = readDesign(designText, "data/lamp/design.yaml");

export const book: Title = { title: "The lamp", revision: "3", preparedBy: "R. Writer", checkedBy: "C. Reader" };

const volt = "kg·m²·s⁻³·A⁻¹";
const ohm = "kg·m²·s⁻³·A⁻²";
const watt = "kg·m²·s⁻³";

function given(path: string, symbol?: string): GivenNode | TableNode {
  const node = design.given(path);
  return symbol === undefined ? node : { ...node, symbol };
}

interface Law {
  readonly id: string;
  readonly symbol: string;
  readonly text: string;
  readonly arguments: Readonly<Record<string, NodeId>>;
  readonly dimension: string;
  readonly unit: string;
  readonly meaning: string;
}

function law({ text, ...rest }: Law): GraphNode {
  return { kind: "formula", ...rest, text, expression: parseFormula(text, Object.keys(rest.arguments)).expression, source: "Ohm's law" };
}

const within = (rail: "low" | "high", name: string) => `lamp.rail[${rail}].${name}`;

/** The resistor, current and heat with one of the two supplies. */
function alternative(rail: "low" | "high"): GraphNode[] {
  const V_s = `givens.supply.${rail}`;
  return [
    law({
      id: within(rail, "R"),
      symbol: "R",
      text: "(V_s - V_f)/I_w",
      arguments: { V_s, V_f: "givens.lamp.forward", I_w: "givens.lamp.current" },
      dimension: ohm,
      unit: "Ω",
      meaning: "series resistor",
    }),
    {
      kind: "select",
      id: within(rail, "R.E24"),
      of: within(rail, "R"),
      series: "E24",
      rule: "nearest",
      deviation: "givens.lamp.resistor",
      dimension: ohm,
      unit: "Ω",
      symbol: "R_E24",
      meaning: "preferred series resistor",
    },
    law({
      id: within(rail, "I"),
      symbol: "I",
      text: "(V_s - V_f - k_T*(T_a - T_0))/R",
      arguments: {
        V_s,
        V_f: "givens.lamp.forward",
        k_T: "givens.lamp.drift",
        T_a: "givens.lamp.ambient",
        T_0: "~room",
        R: within(rail, "R.E24"),
      },
      dimension: "A",
      unit: "mA",
      meaning: "current through the lamp",
    }),
    law({
      id: within(rail, "P"),
      symbol: "P",
      text: "I^2*R",
      arguments: { I: within(rail, "I"), R: within(rail, "R.E24") },
      dimension: watt,
      unit: "mW",
      meaning: "heat of the resistor",
    }),
  ];
}

function switched(name: string, dimension: string, unit: string, meaning: string): GraphNode {
  return {
    kind: "switch",
    id: `lamp.${name}`,
    choice: "decisions.lamp.rail",
    cases: { low: within("low", name), high: within("high", name) },
    dimension,
    unit,
    symbol: name,
    meaning,
  };
}

const paths = [
  "supply.low",
  "supply.high",
  "lamp.forward",
  "lamp.current",
  "lamp.resistor",
  "lamp.ambient",
  "lamp.drift",
  "lamp.curve",
  "pipe.length",
  "pipe.diameter",
  "pipe.wall",
  "pipe.gap",
  "pipe.viewing",
];

export const nodes: readonly GraphNode[] = [
  ...paths.map((path) => given(path)),
  { kind: "constant", id: "~room", value: 298.15, dimension: "K|temperature", unit: "°C" },
  {
    kind: "choice",
    id: "decisions.lamp.rail",
    path: "decisions.lamp.rail",
    options: ["low", "high"],
    chosen: "high",
    dimension: "1",
    unit: "1",
    meaning: "supply of the lamp",
    provenance: { source: "own" },
  },
  ...alternative("low"),
  ...alternative("high"),
  switched("R", ohm, "Ω", "series resistor"),
  switched("I", "A", "mA", "current through the lamp"),
  switched("P", watt, "mW", "heat of the resistor"),
  {
    kind: "sweep",
    id: "lamp.I-over-forward",
    of: "lamp.I",
    over: "givens.lamp.forward",
    xDimension: volt,
    xUnit: "V",
    points: [2.7, 2.75, 2.8, 2.85, 2.9, 2.95, 3],
    dimension: "A",
    unit: "mA",
    symbol: "I",
    meaning: "current against forward voltage",
  },
  {
    kind: "curve-operation",
    id: "lamp.I_curve",
    operation: "at",
    of: "givens.lamp.curve",
    argument: "givens.lamp.forward",
    dimension: "A",
    unit: "mA",
    symbol: "I_c",
    meaning: "current that the data sheet shows",
  },
  {
    kind: "frozen",
    id: "lamp.old",
    value: 0.0021,
    reads: ["lamp.I"],
    dimension: "A",
    unit: "mA",
    symbol: "I_old",
    meaning: "current read out by hand",
  },
];

export const graph = Graph.from(nodes);

export function display(block: Block, sheet = "lamp"): Display {
  return { sheet, block, nodes };
}

const milliamp = (x: number) => x / 1000;

export const lampBlocks: readonly Block[] = [
  {
    type: "givens",
    rows: [
      { symbol: "V_l", node: "givens.supply.low" },
      { symbol: "V_h", node: "givens.supply.high" },
      { symbol: "V_f", node: "givens.lamp.forward" },
      { symbol: "I_w", node: "givens.lamp.current" },
      { symbol: "T_a", node: "givens.lamp.ambient" },
      { symbol: "k_T", node: "givens.lamp.drift" },
      { symbol: "curve", node: "givens.lamp.curve" },
    ],
  },
  {
    type: "result",
    node: within("high", "R"),
    law: typeset(parseFormula("(V_h - V_f)/I_w").expression),
    source: "Ohm's law",
    substituted: {
      latex: "\\frac{\\text{⟦0⟧} - \\text{⟦1⟧}}{\\text{⟦2⟧}}",
      values: [
        { node: "givens.supply.high", unit: "V" },
        { node: "givens.lamp.forward", unit: "V" },
        { node: "givens.lamp.current", unit: "mA" },
      ],
    },
  },
  { type: "select", node: within("high", "R.E24"), of: within("high", "R") },
  {
    type: "table",
    caption: "Both supplies",
    laws: [{ symbol: "I", law: "\\frac{V_s - V_f - k_T \\cdot (T_a - T_0)}{R}", source: "Ohm's law" }],
    columns: [
      { symbol: "I", meaning: "current" },
      { symbol: "P", meaning: "heat" },
    ],
    rows: [
      { label: "logic supply", cells: [within("low", "I"), within("low", "P")] },
      { label: "analog supply", cells: [within("high", "I"), within("high", "P")] },
    ],
  },
  {
    type: "decision",
    name: "rail",
    question: "Which supply feeds the lamp?",
    choice: "decisions.lamp.rail",
    criteria: [
      { name: "I", label: "current", better: "higher", limit: { low: milliamp(1.4), judged: "worst case", requirement: "bright" } },
      { name: "P", label: "heat", better: "lower" },
    ],
    alternatives: [
      { name: "low", label: "logic supply", values: { I: within("low", "I"), P: within("low", "P") } },
      { name: "high", label: "analog supply", values: { I: within("high", "I"), P: within("high", "P") } },
    ],
    reason: "The **difference** of two near voltages spreads widely: see [2 mA](#I).",
    reconsider: "A lamp of lower voltage.",
  },
  { type: "requirement", requirement: "bright", node: "lamp.I" },
  { type: "requirement", requirement: "cool", node: "lamp.P" },
  {
    type: "plot",
    name: "spread",
    caption: "Current against forward voltage",
    x: { label: "forward voltage", unit: "V", scale: "linear" },
    y: { label: "current", unit: "mA", scale: "linear" },
    series: [{ label: "current", curve: "lamp.I-over-forward", band: true }],
    rules: [{ axis: "y", label: "least current", value: milliamp(1.4) }],
  },
  {
    type: "drawing",
    name: "pipe",
    caption: "Light pipe, to scale",
    drawing: "light.pipe",
    arguments: {
      length: "givens.pipe.length",
      diameter: "givens.pipe.diameter",
      wall: "givens.pipe.wall",
      gap: "givens.pipe.gap",
      viewing: "givens.pipe.viewing",
    },
  },
  { type: "result", node: "lamp.I_curve", model: "Reads the current from the data sheet's curve." },
  { type: "result", node: "lamp.old" },
  { type: "caution", subject: "heat", text: "Do not enclose the resistor." },
  { type: "publish", names: { current: "lamp.I" } },
];

const prose = [
  "# How bright is the lamp?\n\nA lamp hangs on a supply through a resistor. The question is which supply: with $V_s - V_f$ small, the current follows every tolerance of the lamp.\n\n## Givens\n\nThe worksheet reads these from the design file.",
  "## The resistor\n\nOhm's law gives $R = \\frac{V_s - V_f}{I_w}$, hence a current of [2 mA](#I), published as [the current](lamp.ipynb#current).",
];

export function markdownCell(source: string): unknown {
  return { cell_type: "markdown", id: "m", metadata: {}, source: source.split(/(?<=\n)/) };
}

export function codeCell(source: string, shown: readonly Display[]): unknown {
  const outputs = shown.map((data) => ({
    output_type: "display_data",
    metadata: {},
    data: { [displayType]: storeDisplay(data), "text/plain": ["ignored"] },
  }));
  return { cell_type: "code", id: "c", metadata: {}, execution_count: null, source: [source], outputs };
}

export function notebook(cells: readonly unknown[]): SheetInput["notebook"] {
  return { cells, nbformat: 4, nbformat_minor: 5, metadata: {} } as SheetInput["notebook"];
}

export const lampSheet: SheetInput = {
  name: "lamp",
  notebook: notebook([
    markdownCell(prose[0] ?? ""),
    codeCell("const g = sheet.given({ … });", [display(lampBlocks[0] as Block)]),
    markdownCell(prose[1] ?? ""),
    ...lampBlocks.slice(1).map((block, index) => codeCell(`// cell ${index}\nshow(block);`, [display(block)])),
  ]),
};

/** A fresh evaluation in this process, to hold the page against. */
export function evaluation(changes: Parameters<Graph["withChanges"]>[0] = {}): Evaluation {
  return new Evaluation(graph.withChanges(changes));
}
