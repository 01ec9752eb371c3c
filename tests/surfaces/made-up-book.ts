/**
 * Books made up at random: a design file and two to four sheets that take from one another, with tolerances, ranges, alternatives, roll-ups,
 * curves, requirements that one or two sheets answer, and names that a given and a result share. The same seed makes the same book.
 */
import { Draw } from "./draw";

export interface MadeUpGiven {
  readonly path: string;
  readonly text: string;
  /** Another value of the same given. */
  readonly other: string;
}

export interface MadeUpBook {
  readonly design: string;
  readonly givens: readonly MadeUpGiven[];
  readonly decisions: readonly { readonly path: string; readonly options: readonly string[] }[];
  /** By file name, the sources of the cells. */
  readonly sheets: Readonly<Record<string, readonly string[]>>;
  /** A given of the same name as a published result, where there is one. */
  readonly shared?: string;
  /** A requirement that two sheets answer. */
  readonly answeredTwice?: string;
}

const opening = (name: string) =>
  `import { worksheet } from "workings";\nimport { mA, mW, ohm, volt } from "workings/units";\nconst sheet = worksheet("${name}");`;

/** Names that are words of JavaScript's objects, or of the book itself. */
const awkward = ["constructor", "toString", "none", "givens", "decisions", "valueOf"] as const;

/** `most`: sheets that a book may have. */
export function madeUpBook(seed: number, most = 4): MadeUpBook {
  const draw = new Draw(seed);
  const names = draw.some(["lamp", "rail", "cell", "budget", "case"], draw.whole(2, most));
  const givens = new Map<string, MadeUpGiven>();
  const add = (path: string, value: number, unit: string, spread: string, nudge: number) => {
    givens.set(path, { path, text: `${value} ${unit}${spread}`, other: `${Number((value * nudge).toPrecision(4))} ${unit}${spread}` });
    return path;
  };
  const spread = (value: number, unit: string) =>
    draw.one([
      "",
      ` ±${draw.one([1, 2, 5, 10])} %`,
      ` ±${Number((value * 0.03).toPrecision(2))} ${unit} (3σ)`,
      ` in ${Number((value * 0.7).toPrecision(3))} ${unit} to ${Number((value * 1.3).toPrecision(3))} ${unit}`,
    ]);
  const requirements: string[] = [];
  const decisions: { path: string; options: readonly string[] }[] = [];
  const sheets: Record<string, readonly string[]> = {};
  const published: string[] = [];
  let shared: string | undefined;
  let answeredTwice: string | undefined;
  names.forEach((name, index) => {
    const V = draw.between(2, 12);
    const I = draw.between(1, 40);
    const voltage = add(`${name}.supply`, V, "V", spread(V, "V"), draw.one([0.9, 1.05, 1.2]));
    const current = add(`${name}.load.current`, I, "mA", spread(I, "mA"), draw.one([0.8, 1.1]));
    const cells = [opening(name), `const g = sheet.given({ V: ["${voltage}", volt], I: ["${current}", mA] });`];
    cells.push(`const P = sheet.derive("P = V*I", g, mW, "power of ${name}");`);
    const results: Record<string, string> = { P: "P" };
    if (draw.chance(0.6)) {
      cells.push(`const R = sheet.derive("R = V/I", g, ohm, "load resistance");`);
      results["R"] = "R";
    }
    if (shared === undefined && draw.chance(0.5)) {
      // A given `lamp.P` beside the result P of the sheet lamp.
      shared = add(`${name}.P`, draw.between(5, 500), "mW", " ±5 %", 1.1);
      cells.push(
        `const h = sheet.given({ P_h: ["${shared}", mW] });`,
        `const D = sheet.derive("D = P_h - P", { P_h: h.P_h, P: P }, mW, "what is left");`,
      );
      results["D"] = "D";
    }
    if (draw.chance(0.4)) {
      // A threshold in code, the same in every unit, and what each unit has above it.
      cells.push(
        `const T = sheet.setOnce(sheet.derive("H = P/2", { P: P }, mW, "half the power"));`,
        `const A = sheet.derive("A = P - T", { P: P, T: T }, mW, "above the threshold");`,
      );
      results["T"] = "T";
      results["A"] = "A";
    }
    if (draw.chance(0.5)) {
      const options = ["low", draw.one(awkward)];
      const path = `decisions.${name}.which`;
      const wanted = Number((V * I * draw.one([0.9, 1.05, 1.2])).toPrecision(3));
      const best = draw.one(['better: "lower"', 'better: "smallest spread"', "nearest: P", "nearest: n.P_n"]);
      if (best === "nearest: n.P_n") cells.push(`const n = sheet.given({ P_n: ["${add(`${name}.wanted`, wanted, "mW", "", 1.1)}", mW] });`);
      const better = Number((V * 1.1).toPrecision(3));
      const second = add(`${name}.second`, better, "V", spread(better, "V"), 0.95);
      decisions.push({ path, options });
      cells.push(
        `const k = sheet.given({ W: ["${second}", volt] });`,
        `const which = sheet.alternatives("which", { low: { label: "low", V: g.V }, ["${options[1]}"]: { label: "other", V: k.W } }, ({ V }) => ({\n  Q: sheet.derive("Q = V*I", { V: V, I: g.I }, mW, "power of the alternative"),\n}));`,
        `const { Q } = sheet.decide(which, { question: "Which of ${name}?", criteria: { Q: { label: "power", ${best} } } });`,
      );
      results["Q"] = "Q";
    }
    const earlier = published.filter(() => draw.chance(0.7)).slice(0, 2);
    if (earlier.length > 0) {
      const symbols = earlier.map((from, at) => `E${at}: ["${from}", mW]`).join(", ");
      const sum = earlier.map((_, at) => `E${at}`).join(" + ");
      cells.push(
        `const t = sheet.take({ ${symbols} });`,
        `const S = sheet.derive("S = P + ${sum}", { ...t, P: P }, mW, "power of ${name} and those before");`,
      );
      results["S"] = "S";
    }
    if (draw.chance(0.4) && /±| in /.test(givens.get(current)?.text ?? ""))
      cells.push(
        `const c = sheet.sweep(P, g.I);\nsheet.plot({ name: "power", caption: "Power against current.", x: { label: "current", unit: mA }, y: { label: "power", unit: mW }, series: [{ label: "P", curve: c, band: true }] });`,
      );
    const limit = Number((V * I * draw.one([0.7, 1.02, 1.08, 1.3, 2])).toPrecision(3));
    const judged = draw.one(["worst case", "95 %", "typical"]);
    const id = index === 0 ? draw.one([...awkward, "power"]) : `${name}-power`;
    requirements.push(`  ${id}: { statement: Power of ${name}, limit: "<= ${limit} mW", judged: ${judged}, source: own }`);
    cells.push(`sheet.require(P, "${id}");`);
    if (index > 0 && answeredTwice === undefined && draw.chance(0.5)) {
      answeredTwice = /^ {2}([^:]+):/.exec(requirements[0] ?? "")?.[1];
      cells.push(`sheet.require(P, "${answeredTwice}");`);
    }
    cells.push(
      `sheet.publish({ ${Object.entries(results)
        .map(([key, value]) => `${key}: ${value}`)
        .join(", ")} });`,
    );
    published.push(
      ...Object.keys(results)
        .filter((key) => key !== "R")
        .map((key) => `${name}.${key}`),
    );
    sheets[`0${index + 1}-${name}.ipynb`] = cells;
  });
  requirements.push('  open: { statement: Nothing answers this, limit: "<= 1 mW", judged: worst case, source: own }');
  return {
    design: designText([...givens.values()], requirements, decisions, draw),
    givens: [...givens.values()],
    decisions,
    sheets,
    ...(shared !== undefined && { shared }),
    ...(answeredTwice !== undefined && { answeredTwice }),
  };
}

function designText(
  givens: readonly MadeUpGiven[],
  requirements: readonly string[],
  decisions: MadeUpBook["decisions"],
  draw: Draw,
): string {
  const leaves = givens.map(({ path, text }) => ({ parts: path.split("."), text }));
  const lines: string[] = [];
  const write = (at: readonly string[]): void => {
    const below = leaves.filter(({ parts }) => at.every((part, index) => parts[index] === part));
    const indent = "  ".repeat(at.length + 1);
    for (const key of new Set(below.map(({ parts }) => parts[at.length] as string))) {
      const leaf = below.find(({ parts }) => parts.length === at.length + 1 && parts[at.length] === key);
      if (leaf === undefined) {
        lines.push(`${indent}${key}:`);
        write([...at, key]);
      } else lines.push(`${indent}${key}: { value: "${leaf.text}", meaning: made up, source: own }`);
    }
  };
  write([]);
  const chosen = decisions.map(({ path, options }) => {
    const [, sheet = "", name = ""] = path.split(".");
    return `  ${sheet}: { ${name}: { chosen: ${draw.one(options)}, reason: so, reconsider: never } }`;
  });
  return [
    'product: { name: Made, revision: "1" }',
    "sources: { own: { type: document, title: Made up for this test } }",
    "requirements:",
    ...requirements,
    ...(chosen.length > 0 ? ["decisions:", ...chosen] : []),
    "givens:",
    ...lines,
    "",
  ].join("\n");
}
