import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { readDesign } from "../../lib/design/read";
import type { GivenNode, TableNode } from "../../lib/graph/node";
import { editDecision, editGiven, editTableCell } from "./edit-design";
import { beside, file, sound } from "./fixture";

const text = file("data/bittern/design.yaml");

describe("editGiven", () => {
  it("changes one value and no other byte", () => {
    const edited = editGiven(text, "rails.positive.voltage", "5 V ±5 %");
    expect(edited).toBe(text.replace("value: 4.5 V ±2 %", "value: 5 V ±5 %"));
    expect((readDesign(edited, "d.yaml", undefined, beside).given("rails.positive.voltage") as GivenNode).text).toBe("5 V ±5 %");
  });

  it("keeps the quotes that a value had", () => {
    const quoted = sound.replace("4.5 V ±2 %", "'4.5 V ±2 %'  # as built");
    expect(editGiven(quoted, "rails.high", "5 V")).toBe(quoted.replace("'4.5 V ±2 %'", "'5 V'"));
  });

  it.each(["# 5 V", "5 V # 6", "5: 6", "[5", "true", "5 V\n6 V", 'a "b"', "it's", ""])(
    "writes %j so that it reads back the same",
    (value) => {
      const edited = editGiven(sound, "rails.high", value);
      expect(parse(edited).givens.rails.high.value).toBe(value);
      expect(editGiven(edited, "rails.high", "4.5 V ±2 %").replace('"4.5 V ±2 %"', "4.5 V ±2 %")).toBe(sound);
    },
  );

  it("leaves a number a number", () => {
    expect(editGiven(sound, "rails.high", "0.50")).toContain("value: 0.50\n");
  });

  it("answers an unknown path with the nearest key", () => {
    expect(() => editGiven(text, "rails.postive", "5 V")).toThrow("the file has no givens.rails.postive; did you mean 'positive'");
    expect(() => editGiven(text, "indicators.green.iv", "5 V")).toThrow("the file has no givens.indicators.green.iv.value");
  });
});

describe("editTableCell", () => {
  it("changes one cell and no other byte", () => {
    const edited = editTableCell(sound, "lamp.iv", 1, 1, 1.25);
    expect(edited).toBe(sound.replace("[1.9, 1]", "[1.9, 1.25]"));
    expect((readDesign(edited, "d.yaml").given("lamp.iv") as TableNode).y[1]).toBeCloseTo(1.25e-3, 15);
  });

  it("refuses a row that is not there and a number that is not finite", () => {
    expect(() => editTableCell(sound, "lamp.iv", 9, 0, 1)).toThrow("the file has no givens.lamp.iv.table.rows.9");
    expect(() => editTableCell(sound, "lamp.iv", 0, 0, Number.NaN)).toThrow("a table cell cannot be NaN; give a finite number");
  });
});

describe("editDecision", () => {
  it("changes the choice and no other byte, with or without the leading word", () => {
    const edited = text.replace("chosen: positive", "chosen: logic");
    expect(editDecision(text, "indicators.rail", "logic")).toBe(edited);
    expect(editDecision(text, "decisions.indicators.rail", "logic")).toBe(edited);
  });
});
