/** Every public formula and model has a worked example, whose expected value comes from elsewhere, and agrees with it. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { readExamples } from "../../lib/design/examples";
import { type CatalogueEntry, catalogue, pathOf } from "../../lib/document/reference/catalogue";
import { exampleFaults, inputsOf, workedExample } from "../../lib/document/reference/example";
import { referenceFaults } from "../../lib/document/reference/reference";
import { formula } from "../../lib/formula/formula";
import { mm, second } from "../../lib/units";
import { entries, exampleFiles, examplesOf } from "./all-examples";

const cases = entries.map((entry) => ({ path: pathOf(entry), entry, examples: examplesOf(entry) }));

/** Significant digits of a number: three of `0.0120`. */
function digitsOf(text: string): number {
  const [number = ""] = /^[-+−]?[\d.]+/u.exec(text.trim()) ?? [];
  return number.replace(/[-+−.]/gu, "").replace(/^0+(?=\d)/u, "").length;
}

describe("the worked examples", () => {
  it("are there for each of the public formulas and models", () => {
    expect(cases.filter(({ examples }) => examples.length === 0).map(({ path }) => path)).toEqual([]);
    expect(cases.length).toBeGreaterThanOrEqual(504);
  });

  it("belong to something that is exported", () => {
    const subjects = catalogue();
    const bare = exampleFiles.map((file) => ({
      ...file,
      laws: new Map([...file.laws].map(([name, law]) => [name, { ...law, examples: [] }])),
    }));
    expect(referenceFaults(subjects, bare)).toEqual([]);
  });

  it.each(cases)("of $path agree to the last digit stated", ({ entry, examples }) => {
    for (const example of examples) expect(exampleFaults(entry, example)).toEqual([]);
  });

  it.each(cases)("of $path lie within its range of validity", ({ entry, examples }) => {
    for (const example of examples) {
      const { graph, results } = workedExample(entry, example);
      const evaluation = new Evaluation(graph, { samples: 10 });
      const scalars = Object.values(results).filter((id) => !isCurve(evaluation, id));
      for (const id of scalars) expect(evaluation.analysis(id).warnings).toEqual([]);
    }
  });

  it("state digits and a source outside the library", () => {
    const all = cases.flatMap(({ path, examples }) => examples.map((example) => ({ path, example })));
    const loose = all.flatMap(({ path, example }) => {
      const texts = Object.values(example.results).map(({ text }) => text);
      const coarse = texts.filter((text) => digitsOf(text) < 3 && Number.parseFloat(text) !== 0);
      return coarse.length === texts.length ? [`${path}: ${coarse.join(", ")}`] : [];
    });
    // Figures that a table or another program gives with two digits
    expect(loose.map((line) => line.split(":")[0])).toEqual(coarseSources);
    expect(all.filter(({ example }) => !sources.test(example.from)).map(({ path, example }) => `${path}: ${example.from}`)).toEqual([]);
  });
});

const coarseSources = ["board.stripline", "esd.bodyDischarge"];
const sources = /by hand|check row|IEC|Timoshenko|Taylor|Simpson|Cohn|scipy/;

function isCurve(evaluation: Evaluation, id: string): boolean {
  const node = evaluation.graph.get(id);
  if (node.kind !== "model") return false;
  const output = entries.find((entry) => entry.law.of === modelOf(node.model))?.law;
  return output?.kind === "model" && "shape" in (output.of.outputs[node.output] as object);
}

function modelOf(name: string) {
  return entries.find(({ law }) => law.kind === "model" && law.of.name === name)?.law.of;
}

describe("a wrong example", () => {
  const entry = entries.find((each) => pathOf(each) === "audio.inputLoading");
  const curve = entries.find((each) => pathOf(each) === "battery.meanVoltage");
  const tried = (target: typeof entry, lines: string) => {
    if (target === undefined) throw new Error("no such entry");
    const text = `name: ${target.subject}\nlaws:\n  ${target.name}:\n    examples:\n      - ${lines}`;
    return readExamples({ "x.yaml": text }).flatMap((file) =>
      (file.laws.get(target.name)?.examples ?? []).flatMap((example) => exampleFaults(target, example)),
    );
  };

  it.each([
    [
      "a digit that is off",
      "with: { R_i: 9 kΩ, R_s: 1 kΩ }\n        gives: -0.916 dB\n        from: by hand",
      /^x\.yaml:6:16: audio\.inputLoading should be -0\.916 dB, and is -0\.91514/,
    ],
  ])("with %s is told with its place", (_, lines, message) => {
    expect(tried(entry, lines).join()).toMatch(message);
    expect(tried(entry, lines.replace("-0.916", "-0.915"))).toEqual([]);
    expect(tried(entry, lines.replace("-0.916", "-0.9"))).toEqual([]);
  });

  it.each([
    [
      "an unknown symbol",
      "with: { R_i: 9 kΩ, R_x: 1 kΩ }\n        gives: -0.915 dB\n        from: by hand",
      /x\.yaml:5:33: audio\.inputLoading has no argument 'R_x'; it takes R_i, R_s; did you mean R_i\?/,
    ],
    [
      "a missing symbol",
      "with: { R_i: 9 kΩ }\n        gives: -0.915 dB\n        from: by hand",
      /x\.yaml:5:9: this example of audio\.inputLoading has no R_s/,
    ],
    [
      "another dimension",
      "with: { R_i: 9 kV, R_s: 1 kΩ }\n        gives: -0.915 dB\n        from: by hand",
      /x\.yaml:5:\d+: .*resistance is expected/,
    ],
    ["a text that is no quantity", "with: { R_i: 9 kQ, R_s: 1 kΩ }\n        gives: -0.915 dB\n        from: by hand", /x\.yaml:5:\d+: /],
  ])("with %s is refused with its place", (_, lines, message) => {
    expect(() => tried(entry, lines)).toThrow(message);
  });

  it.each([
    ["no arrow", "0 % 3 V, 100 % → 4 V", /is no row of a table; write 'x → y'/],
    [
      "an unknown interpolation",
      "0 % → 3 V, 100 % → 4 V (cubic)",
      /'cubic' is no interpolation; write linear or log-y or log-log or monotone/,
    ],
  ])("with a table of %s is refused", (_, table, message) => {
    const lines = `with: { ocv: "${table}" }\n        gives: 3.50 V\n        from: by hand`;
    expect(() => tried(curve, lines.replace("gives: 3.50 V", "gives: { V: 3.50 V }"))).toThrow(message);
  });

  it("with a result that the law does not have is told", () => {
    const lines = "with: { ocv: '0 % → 3 V, 100 % → 4 V' }\n        gives: { U: 3.50 V }\n        from: by hand";
    expect(tried(curve, lines).join()).toMatch(/battery\.meanVoltage has no result 'U'; it gives V/);
  });
});

describe("the symbols of formulas and models", () => {
  it("have words, those of the law or of its subject, and none is explained that is not there", () => {
    const words = (entry: CatalogueEntry) => {
      const file = exampleFiles.find(({ name }) => name === entry.subject);
      return { common: file?.symbols ?? {}, own: file?.laws.get(entry.name)?.symbols ?? {} };
    };
    const bare = entries.flatMap((entry) => {
      const { common, own } = words(entry);
      return Object.keys(inputsOf(entry)).flatMap((symbol) => ((own[symbol] ?? common[symbol]) ? [] : [`${pathOf(entry)} ${symbol}`]));
    });
    const stray = entries.flatMap((entry) =>
      Object.keys(words(entry).own).flatMap((symbol) => (symbol in inputsOf(entry) ? [] : [`${pathOf(entry)} ${symbol}`])),
    );
    expect({ bare, stray }).toEqual({ bare: [], stray: [] });
  });
});

describe("a subject's words for a symbol", () => {
  const length = formula("d = 2*t", { t: mm }, mm, { meaning: "twice a thickness", source: "by hand", valid: { t: "> 0" } });
  const time = formula("d = 2*t", { t: second }, second, { meaning: "twice a time", source: "by hand", valid: { t: "> 0" } });
  const faults = (own: string): readonly string[] =>
    referenceFaults(
      catalogue({ clock: { length, time } }),
      readExamples({ "x.yaml": `name: clock\nsymbols:\n  t: time\nlaws:\n  length:\n    symbols: { ${own} }\n` }),
    );

  it("are told where laws of two dimensions share them: 't: time' for a thickness in mm", () => {
    expect(faults("").join()).toBe(
      `x.yaml: 't' is "time" in all laws of clock, but it is length in length; time in time; write under symbols of a law what it means there`,
    );
    expect(faults("t: thickness")).toEqual([]);
  });

  it("fit one dimension in every subject that there is", () => {
    expect(referenceFaults(catalogue(), exampleFiles)).toEqual([]);
  });
});

describe("what a law takes", () => {
  it("is told for formulas and models alike", () => {
    expect(entries.every((each) => Object.keys(inputsOf(each)).length > 0)).toBe(true);
  });
});
