/** Cells' modules as scripts: all of a sheet at once, unchecked where their imports are surely there. */
import { describe, expect, it } from "vitest";
import { compileModules } from "../../lib/kernel/native/compile";

const module = (cell: number, text: string) => ({ cell, text, lines: text.split("\n").length, isAsync: false });
const code = (...texts: string[]): string[] => {
  const found = compileModules(texts.map((text, i) => module(i + 1, text)));
  return texts.map((_, i) => found.get(i + 1)?.code ?? "");
};

describe("compileModules", () => {
  it("leaves out an import of types from a package that need not be there when the cell runs", () => {
    const [script] = code('export {};\nimport { Shape } from "shapes-of-somebody";\nconst s: Shape = null;\nexport { s };');
    expect(script).not.toContain("require");
    expect(script).toContain("exports.s = s;");
  });

  it("keeps an import of a package that is used as a value, and hands the last expression over", () => {
    const [script] = code('export {};\nimport { area } from "shapes-of-somebody";\narea(2);\n');
    expect(script).toContain('require("shapes-of-somebody")');
    expect(script).toMatch(/exports\.tsLastExpr = \(0, \w+\.area\)\(2\);$/);
  });

  it("gives what each cell gives alone, types left out, names of earlier cells read where they are used", () => {
    const texts = [
      'export {};\nimport { volt } from "workings/units";\ninterface Pair { a: number }\nlet n: Pair["a"] = 1;\nn++;\nn;\nexport { Pair, n };',
      'export {}; import { Pair, n } from "./c1";\nconst twice = (p: Pair): number => 2 * p.a * n;\nexport { twice };',
    ];
    const together = code(...texts);
    expect(together).toEqual(texts.map((text, i) => compileModules([module(i + 1, text)]).get(i + 1)?.code));
    expect(together[0]).toContain("exports.n = (n++, n);");
    expect(together[0]).not.toMatch(/exports\.Pair|interface/);
    expect(together[1]).toContain("2 * p.a * c1_1.n");
  });
});
