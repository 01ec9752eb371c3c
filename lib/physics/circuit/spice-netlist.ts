/**
 * A circuit written as text for ngspice. Diodes in straight pieces become behavioural sources, an inductor that
 * saturates a flux that a 1 H inductor differentiates, a pulse its formula in `time`.
 */
import { type Circuit, type CircuitElement, checkCircuit, type Diode, ground, type Inductor, type PulseWave, type Source } from "./data";

/** Sweep from `from` to `to` (Hz) with so many points a decade. */
export interface FrequencySweep {
  readonly kind: "ac";
  readonly from: number;
  readonly to: number;
  readonly perDecade: number;
}

/** From the initial voltages at t = 0 to `stop` (s), printed each `step` and never computed coarser. */
export interface TimeRun {
  readonly kind: "tran";
  readonly step: number;
  readonly stop: number;
}

export interface NetlistOptions {
  /** First line of the text. */
  readonly title?: string;
  readonly analysis: FrequencySweep | TimeRun;
  /** What is printed, as ngspice writes it: `v(out)`, `vm(out)`, `i(V_pin)`. */
  readonly print: readonly string[];
  /** Further lines before the end, such as `.options`. */
  readonly lines?: readonly string[];
}

/** Netlist text of a circuit for `ngspice -b`. Throws "model-argument" for a circuit that is none. */
export function netlist(circuit: Circuit, { title = "circuit", analysis, print, lines = [] }: NetlistOptions): string {
  checkCircuit(circuit);
  const cards = circuit.flatMap(cardsOf);
  return [
    `* ${title.replace(/\s+/g, " ")}`,
    ...cards,
    ...lines,
    analysisCard(analysis),
    `.print ${analysis.kind} ${print.join(" ")}`,
    ".end",
    "",
  ].join("\n");
}

function analysisCard(analysis: FrequencySweep | TimeRun): string {
  if (analysis.kind === "ac") return `.ac dec ${analysis.perDecade} ${analysis.from} ${analysis.to}`;
  return `.tran ${analysis.step} ${analysis.stop} 0 ${analysis.step} UIC`;
}

function cardsOf(element: CircuitElement): string[] {
  switch (element.kind) {
    case "resistor":
      return [`R_${element.name} ${element.nodes.join(" ")} ${element.R}`];
    case "capacitor":
      return [`C_${element.name} ${element.nodes.join(" ")} ${element.C}${element.initial === undefined ? "" : ` IC=${element.initial}`}`];
    case "inductor":
      return inductorCards(element);
    case "coupling":
      return [`K_${element.name} L_${element.inductors[0]} L_${element.inductors[1]} ${element.k}`];
    case "diode":
      return [diodeCard(element)];
    default:
      return [sourceCard(element)];
  }
}

/** The current through the sensing source makes the flux, as the current of a 1 H inductor, whose voltage is its slope. */
function inductorCards({ name, nodes, L, saturation }: Inductor): string[] {
  if (saturation === undefined) return [`L_${name} ${nodes.join(" ")} ${L}`];
  const i = `I(V_${name}_sense)`;
  const step = (L - saturation.L) * saturation.I;
  const flux = `abs(${i}) < ${saturation.I} ? ${L}*${i} : ${saturation.L}*${i} + ${step}*sgn(${i})`;
  return [
    `V_${name}_sense ${nodes[0]} ${name}_mid 0`,
    `B_${name} ${name}_mid ${nodes[1]} V = V(${name}_slope)`,
    `B_${name}_flux ${ground} ${name}_slope I = ${flux}`,
    `L_${name}_slope ${name}_slope ${ground} 1`,
  ];
}

function diodeCard({ name, nodes, V_f, R_f, V_br, R_br }: Diode): string {
  const v = `V(${nodes[0]},${nodes[1]})`;
  const reverse = V_br === Infinity ? "0" : `(${v} < ${-V_br} ? (${v} - (${-V_br}))/${R_br} : 0)`;
  const current = V_f === Infinity ? reverse : `${v} > ${V_f} ? (${v} - (${V_f}))/${R_f} : ${reverse}`;
  return `B_${name} ${nodes[0]} ${nodes[1]} I = ${current}`;
}

function sourceCard({ kind, name, nodes, value, ac }: Source): string {
  const letter = kind === "voltage" ? "V" : "I";
  const between = nodes.join(" ");
  if (typeof value !== "number") return `B_${name} ${between} ${letter} = ${pulseText(value)}`;
  return `${letter}_${name} ${between} DC ${value}${ac === undefined ? "" : ` AC ${ac}`}`;
}

function pulseText({ scale, terms }: PulseWave): string {
  const texts = terms.map(({ peak, rise, fall, power }) => {
    const x = `(time/${rise})^${power}`;
    return `${scale * peak}*${x}/(1 + ${x})*exp(-time/${fall})`;
  });
  return texts.join(" + ");
}
