/** Names that JavaScript's own objects have: they are names like any other. */
import { beforeAll, describe, expect, it } from "vitest";
import { type FaultBook, healthy, opening, ranBook } from "./fault-book";

const names = ["toString", "constructor", "hasOwnProperty", "valueOf"] as const;

const givens = names.map((name) => `  ${name}: { value: 2 mA ±10 %, meaning: current ${name}, source: ${name} }\n`).join("");
const design = `product: { name: Lamp, revision: "1" }
sources:
${names.map((name) => `  ${name}: { type: document, title: Source ${name} }\n`).join("")}requirements:
${names.map((name) => `  ${name}: { statement: Power ${name}., limit: "<= 1 mW", judged: worst case }\n`).join("")}decisions:
  constructor:
${names.map((name) => `    ${name}: { chosen: toString, reason: Less heat., reconsider: A lamp of lower voltage. }\n`).join("")}givens:
  high: { value: 5 V ±2 %, meaning: the high rail, source: toString }
  current: { value: 2 mA ±10 %, meaning: current, source: toString }
${givens}`;

const cells = (sheet: string) => [
  opening(sheet),
  `const g = sheet.given({ V: ["high", volt], ${names.map((name, index) => `I_${index}: ["${name}", mA]`).join(", ")} });`,
  ...names.map(
    (name, index) =>
      `const P_${index} = sheet.derive("P_${index} = V*I_${index}", { V: g.V, I_${index}: g.I_${index} }, mW, "power ${name}");\nsheet.require(P_${index}, "${name}");\nsheet.publish({ ["${name}"]: P_${index} });`,
  ),
];

describe("requirements, givens, sources, results and sheets called as members of every object", { timeout: 240_000 }, () => {
  let book: FaultBook;
  beforeAll(async () => {
    book = await ranBook({ "01-constructor.ipynb": cells("constructor"), "02-__proto__.ipynb": healthy("__proto__") }, design);
  });

  it("are judged, each by its own name", async () => {
    const { status, stdout, stderr } = await book.workings("check", "--json");
    expect({ status, stderr }).toEqual({ status: 1, stderr: "" });
    const { requirements } = JSON.parse(stdout) as { requirements: { requirement: string; verdict: string }[] };
    expect(requirements.map(({ requirement, verdict }) => [requirement, verdict])).toEqual(names.map((name) => [name, "does not hold"]));
  });

  it("have their results, each under its own name", () => {
    const results = JSON.parse(book.read("build/results.json")) as { sheets: Record<string, object>; requirements: object };
    expect(Object.keys(results.requirements).toSorted()).toEqual(names.toSorted());
    expect(Object.keys(results.sheets)).toEqual(["constructor", "__proto__"]);
    expect(Object.keys(results.sheets.constructor as object).toSorted()).toEqual(names.toSorted());
  });

  it.each(names)("%s is found by why and vary", async (name) => {
    const why = await book.workings("why", `constructor.${name}`);
    expect(why).toMatchObject({ status: 0, stderr: "" });
    expect(why.stdout).toContain(`power ${name}`);
    const varied = await book.workings("vary", `${name}=9 mA`, "--json");
    expect(varied).toMatchObject({ status: 0, stderr: "" });
    const { moved } = JSON.parse(varied.stdout) as { moved: { name: string }[] };
    expect(moved.map((one) => one.name)).toEqual([`constructor.${name}`]);
  });

  it("are fresh after a run", async () => {
    expect((await book.run()).stdout).toMatch(/^constructor +fresh.*\n__proto__ +fresh/);
  });

  it("are published", async () => {
    expect(await book.workings("publish", "--csv", "--markdown")).toMatchObject({ status: 0, stderr: "" });
    const table = book.read("build/lamp-requirements.csv");
    for (const name of names) expect(table).toContain(`\n${name},does not hold,`);
  });
});
