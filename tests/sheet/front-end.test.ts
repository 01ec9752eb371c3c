/** What a notebook front end, or a code host that takes scripts and styles away, shows of a worksheet's outputs. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { latexWords } from "../../lib/sheet/block-latex";
import { E24 } from "../../lib/sheet/series";
import { Session } from "../../lib/sheet/session";
import { storedDisplay } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { celsius, mA, mW, ohm, volt } from "../../lib/units";
import { demo } from "../demo-book";

const hostile = `</table><script>alert(1)</script><img src=x onerror=alert(2)> $x$ & "q" 'p'`;
const quoted = JSON.stringify(hostile);
const designText = `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
requirements:
  bright: { statement: ${quoted}, limit: ">= 1.7 mA", judged: 95 %, source: own }
  dim: { statement: Is dim., limit: "<= 1 mA", judged: worst case, source: own }
  warm: { statement: Stays warm., limit: ">= 10 °C", judged: worst case, source: own }
decisions:
  lamp: { rail: { chosen: low, reason: ${JSON.stringify(`[270 Ω](#R) is there ${hostile}`)}, reconsider: never } }
givens:
  low: { value: 4.0 V ±2 %, meaning: ${quoted}, symbol: V_s, source: own }
  high: { value: 5.0 V ±2 %, meaning: the high rail, source: own }
  forward: { value: 2.85 V ±0.12 V, meaning: forward voltage, source: own }
  current: { value: 2 mA, meaning: current wanted, source: own }
  part: { value: ±1 %, meaning: tolerance of a part, source: own }
  ambient: { value: 15 °C ±2 °C, meaning: ambient temperature, source: own }
`;

const sinkKey = Symbol.for("workings.display");
const shared = globalThis as Record<symbol, unknown>;
let outputs: Readonly<Record<string, unknown>>[] = [];
let sheet: Worksheet;

beforeEach(() => {
  outputs = [];
  shared[sinkKey] = ({ data }: { data: Record<string, unknown> }) => outputs.push(data);
  sheet = new Worksheet(new Session("lamp", readDesign(designText, "design.yaml")));
});
afterEach(() => {
  delete shared[sinkKey];
});

const spaced = (text: unknown) => String(text ?? "").replace(/[\u00a0\u202f]/g, " ");
const markup = () => spaced(outputs.at(-1)?.["text/html"]);
const latex = () => spaced(outputs.at(-1)?.["text/latex"]);
const plain = () => spaced(outputs.at(-1)?.["text/plain"]);
/** Rows as lists of what stands in their cells, without tags. */
const rows = () =>
  [...markup().matchAll(/<tr>(.*)/g)].map(([, row = ""]) =>
    row
      .split(/<t[hd][^>]*>/)
      .slice(1)
      .map((cell) =>
        cell
          .replaceAll("<br>", " / ")
          .replace(/<[^>]*>/g, "")
          .trim(),
      ),
  );
const givens = () => sheet.given({ V_s: ["high", volt], V_f: ["forward", volt], I: ["current", mA] });
const resistor = () => sheet.derive("R = (V_s - V_f)/I", givens(), ohm, "series resistor");

/** All that our markup may be made of: a sanitiser takes none of it away but the alignment. */
const allowed = /^<(?:table|tr|th|td|p|br|strong|var|sub|\/table|\/p|\/strong|\/var|\/sub|t[hd] style="text-align:left")>$/;
const foreign = (text: string) => (text.match(/<[^>]*>?/g) ?? []).filter((tag) => !allowed.test(tag));

describe("tables in a notebook's output", () => {
  it("tell the givens, a line each", () => {
    givens();
    expect(rows()).toEqual([
      ["", "Meaning", "Value", "Source"],
      ["Vs", "the high rail", "5.0 V ±2 %", "own"],
      ["Vf", "forward voltage", "2.85 V ±0.12 V", "own"],
      ["I", "current wanted", "2 mA", "own"],
    ]);
    expect(plain()).toContain("V_s = 5.0 V ±2 %  the high rail [own]");
  });

  it("tell of each result the value, its worst case and 95 % of units, at the digits of the text", () => {
    const R = resistor();
    const [, value, worst, middle] = /= (\S+ \S+), worst case (.*), 95 % (.*)$/m.exec(plain()) ?? [];
    sheet.table("Resistors", { one: { R } });
    expect(rows()).toEqual([
      ["", "R / series resistor"],
      ["one", `${value} / worst case ${worst} / 95 % of units ${middle}`],
    ]);
    sheet.publish({ R: R });
    expect(rows()).toEqual([
      ["Published", "Value", "Worst case", "95 % of units"],
      ["R", value, worst, middle],
    ]);
  });

  it("tell alternatives by criterion with their limits, which is chosen and why, links as their words", () => {
    const { V_f, I } = givens();
    const rails = sheet.given({ low: ["low", volt], high: ["high", volt] });
    const list = { low: { label: "low rail", V_s: rails.low }, high: { label: "high rail", V_s: rails.high } };
    const found = sheet.alternatives("rail", list, ({ V_s }) => ({ P: sheet.derive("P = (V_s - V_f)*I", { V_s, V_f, I }, mW, "loss"), I }));
    sheet.decide(found, {
      question: "Which rail?",
      criteria: { P: { label: "loss", better: "lower" }, I: { label: "current", better: "lower", requirement: "dim" } },
    });
    expect(rows()).toEqual([
      ["Alternative", "loss / lower is better", "current / ≤ 1 mA in the worst case"],
      ["→ low rail, chosen", "2.3 mW", "2 mA / misses its limit"],
      ["high rail / dominated by “low rail”", "4.3 mW", "2 mA / misses its limit"],
    ]);
    expect(markup()).toContain("<p><strong>Which rail?</strong></p>");
    expect(markup()).toContain("<p>The chosen alternative “low rail” misses the limit on current; so does every other alternative.</p>");
    expect(markup()).toContain("<p>Why: 270 Ω is there ");
    expect(markup()).toContain("<p>What would change our mind: never</p>");
  });

  it("tell a verdict in words, with what decided it", () => {
    const { V_s, V_f } = givens();
    sheet.require(sheet.derive("I_R = (V_s - V_f)/R", { V_s, V_f, R: ohm(1100) }, mA, "current"), "bright");
    const [, word, deciding, margin] = /: (holds for 95 %) \(judged by 95 %: (.*), margin (.*), met by/.exec(plain()) ?? [];
    expect(rows()).toEqual([
      ["Verdict", "Judged by 95 %", "Margin"],
      [word, deciding, margin],
    ]);
    expect(markup()).toMatch(/<p>met by \d+(\.\d+)? % of units<\/p>/);
  });

  it("tell the margin of a temperature as a difference", () => {
    sheet.require(sheet.given({ T: ["ambient", celsius] }).T, "warm");
    expect(rows()[1]).toEqual(["holds", "13 °C", "3 K"]);
    expect(plain()).toContain("judged by worst case: 13 °C, margin 3 K");
  });

  it("obey nothing that a name, a note or a reason holds", () => {
    const { V } = sheet.given({ V: ["low", volt] });
    sheet.table(hostile, { [hostile]: { V } });
    sheet.contribute(hostile, { [hostile]: sheet.derive("P = V*I", { V, I: mA(1) }, mW, hostile) });
    sheet.caution(hostile, hostile);
    sheet.require(sheet.derive("J = V/R", { V, R: ohm(1000) }, mA, hostile), "bright");
    sheet.publish({ [hostile]: V });
    const all = outputs.flatMap((data) => (data["text/html"] === undefined ? [] : [String(data["text/html"])]));
    expect(all).toHaveLength(6);
    expect(all.flatMap(foreign)).toEqual([]);
    for (const text of all) expect(text).toContain("&lt;script&gt;alert(1)");
    const laws = outputs.flatMap((data) => (data["text/latex"] === undefined ? [] : [String(data["text/latex"])]));
    expect(laws).toHaveLength(2);
    for (const text of laws) expect(text).not.toMatch(/<[a-z/]|\$x\$/);
  });

  it("hold no control character that a terminal or an editor would obey", () => {
    sheet.caution("eyes", "a\u001b[2Jb\u202ec");
    expect(outputs.at(-1)?.["text/html"]).toBe("<p><strong>Caution, eyes:</strong> a\\u001b[2Jb\\u202ec</p>\n");
  });
});

describe("a result as LaTeX", () => {
  it("says what it is, then law and numbers, then worst case and 95 % of units, at the digits of the text", () => {
    resistor();
    const value = /= (\S+) kΩ, worst case/.exec(plain())?.[1];
    const [words, law, spreads] = latex().split("\n\n");
    expect(words).toBe("series resistor");
    expect(law).toContain(String.raw` = ${value}\,\mathrm{k\Omega}$$`);
    expect(spreads).toMatch(/^worst case \$.*\\text\{ to \}.*\$; \$95\\,\\%\$ of units \$.*\\text\{ to \}.*\$\.$/);
  });

  it("says of a preferred value what it is chosen for", () => {
    sheet.select(resistor(), E24, "part");
    expect(latex()).toMatch(/^\$\$R_\{\\mathrm\{E24\}\} = 1\.1.*\$\$\n\nthe preferred value for \$1\.07/);
  });

  it("shows what TeX or HTML would obey as it stands, and symbols typeset", () => {
    expect(latexWords("V_f at 5 % <b>, $x, a_b_c \\input{x}")).toBe("$V_{\\mathrm{f}}$ at 5 $\\%$ ＜b＞, ＄x, a＿b＿c ＼input｛x｝");
  });
});

describe("a picture in a notebook's output", () => {
  const draw = () =>
    sheet.plot({ name: "p", caption: `A [plot](#R) ${hostile}`, x: { label: "R", unit: ohm }, spreads: { R: resistor() } });

  it("stands on white, since its ink is dark, with its caption below it", () => {
    draw();
    const [picture, below] = outputs.slice(-2);
    expect(picture?.["image/svg+xml"]).toMatch(/^<svg[^>]*><rect width="100%" height="100%" fill="#fff"\/>/);
    expect(Object.keys(below ?? {})).toEqual(["text/html"]);
    expect(below?.["text/html"]).toMatch(/^<p>A plot &lt;\/table&gt;/);
    expect(foreign(String(below?.["text/html"]))).toEqual([]);
    expect(storedDisplay({ data: below }, "lamp", 1)).toBeUndefined();
  });
});

describe.each(demo.sheets())("the outputs of $name", ({ notebook }) => {
  const bundles = (notebook.cells as { outputs?: { data?: Record<string, unknown> }[] }[]).flatMap(({ outputs = [] }) =>
    outputs.flatMap(({ data }) => (data === undefined ? [] : [data])),
  );

  it("are all shown as tables, laws or pictures, in tags that every code host keeps", () => {
    const types = ["text/html", "text/latex", "image/svg+xml"];
    expect(bundles.filter((data) => types.every((type) => data[type] === undefined))).toEqual([]);
    expect(bundles.flatMap((data) => foreign(String(data["text/html"] ?? "")))).toEqual([]);
  });
});
