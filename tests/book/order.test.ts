import { describe, expect, it } from "vitest";
import { runOrder } from "../../lib/book/order";

const sheet = (name: string, ...from: string[]) => ({
  name,
  takes: from.map((text, index) => ({ sheet: text.split(".")[0] ?? "", name: text.split(".")[1] ?? "", cell: index + 2 })),
});
const names = (...sheets: ReturnType<typeof sheet>[]) => runOrder(sheets).map(({ name }) => name);

describe("the order of a run", () => {
  it("is the book's where sheets take nothing", () => {
    expect(names(sheet("b"), sheet("a"))).toEqual(["b", "a"]);
  });

  it("puts a sheet after those that it takes from, and moves no other", () => {
    expect(names(sheet("brief", "battery.t"), sheet("enclosure"), sheet("battery", "enclosure.m"))).toEqual([
      "enclosure",
      "battery",
      "brief",
    ]);
  });

  it("refuses a circle, naming every take in it", () => {
    expect(() => names(sheet("a", "b.x"), sheet("b", "c.y"), sheet("c", "a.z"))).toThrow(
      "sheets take from one another in a circle, a → b → c → a: a, cell 2, takes b.x; b, cell 2, takes c.y; c, cell 2, takes a.z",
    );
    expect(() => names(sheet("a", "a.x"))).toThrow("a → a");
  });

  it("refuses a take from no sheet of the book, with the nearest name", () => {
    expect(() => names(sheet("brief", "batery.t"), sheet("battery"))).toThrow(
      'brief, cell 2: takes batery.t, but the book has no sheet "batery"; did you mean battery?',
    );
  });
});
