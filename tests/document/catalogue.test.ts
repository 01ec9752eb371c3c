import { describe, expect, it } from "vitest";
import { catalogue, pathOf } from "../../lib/document/reference/catalogue";
import * as physics from "../../lib/physics";

describe("catalogue()", () => {
  const subjects = catalogue();

  it("tells every exported formula and model, under its home or as another name of it", () => {
    const told = subjects.flatMap(({ name, entries, aliases }) => [...entries, ...aliases].map((each) => `${name}.${each.name}`));
    const exported = Object.entries(physics).flatMap(([subject, members]) =>
      Object.entries(members)
        .filter(([, value]) => typeof value === "object" && value !== null && ("expression" in value || "evaluate" in value))
        .map(([name]) => `${subject}.${name}`),
    );
    expect(told.toSorted()).toEqual(exported.toSorted());
  });

  it("tells each once, with the first subject in alphabetical order", () => {
    const all = subjects.flatMap(({ entries }) => entries.map(({ law }) => law.of));
    expect(new Set(all).size).toBe(all.length);
    const alias = subjects.find(({ name }) => name === "rf")?.aliases.find(({ name }) => name === "wavelength");
    expect(alias && pathOf(alias.entry)).toBe("board.wavelength");
  });
});
