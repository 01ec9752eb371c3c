import { describe, expect, it } from "vitest";
import { expectDimension } from "../../lib/design/expect";
import { readDesign } from "../../lib/design/read";
import { unitOf } from "../../lib/quantity/unit";
import { bittern, sound } from "./fixture";

const design = readDesign(sound, "d.yaml");

describe("expectDimension", () => {
  it("passes a given asked for in another unit of its dimension", () => {
    expect(() => expectDimension(design.given("rails.high"), unitOf("mV"))).not.toThrow();
    expect(() => expectDimension(bittern().given("ambient.field"), unitOf("°C"))).not.toThrow();
  });

  it("names line and column of a given of another dimension", () => {
    expect(() => expectDimension(design.given("rails.high"), unitOf("mA"))).toThrow(
      "d.yaml:22:14: 'rails.high' is stated in V (voltage); expected current, asked for in mA; mend the unit here or in the worksheet",
    );
  });

  it("asks both columns of a table", () => {
    const table = design.given("lamp.iv");
    expect(() => expectDimension(table, unitOf("A"), unitOf("V"))).not.toThrow();
    expect(() => expectDimension(table, unitOf("V"), unitOf("V"))).toThrow(
      "d.yaml:33:9: the column 'current' of 'lamp.iv' is stated in mA (current)",
    );
    expect(() => expectDimension(table, unitOf("A"), unitOf("A"))).toThrow(
      "d.yaml:33:9: the column 'voltage' of 'lamp.iv' is stated in V (voltage)",
    );
  });
});
