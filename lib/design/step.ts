/** The step of a given: how far a sensitivity moves it to either side, `step: 5 °C`. */
import type { Node } from "yaml";
import type { GivenNode, TableNode } from "../graph/node";
import { comparable, dimension } from "../quantity/dimension";
import { fromLevel } from "../quantity/level";
import { unitOf } from "../quantity/unit";
import type { Fields } from "./fields";
import { type StatedValue, statedValue } from "./value";

type Stepped = Pick<GivenNode, "kind" | "nominal" | "unit" | "dimension"> | Pick<TableNode, "kind">;

/** In SI, kelvin for a point of temperature; of a unit in decibels the factor. Undefined where the file states none, and after a report. */
export function readStep(fields: Fields, given: Stepped): number | undefined {
  const node = fields.node("step");
  if (node === undefined) return undefined;
  const { file, subject } = fields;
  if (given.kind === "table")
    return void file.report(node, `${subject} is a table and has a step`, "no step: its ordinates are moved by 10 %", "delete it");
  const stated = statedValue(file, node, `step of ${subject}`);
  if (stated === undefined) return undefined;
  if (stated.spread.kind !== "exact")
    return void file.report(node, `step of ${subject} has a tolerance`, "a quantity alone, such as 5 °C", "leave the tolerance out");
  return stepOf(fields, node, given, stated);
}

function stepOf({ file, subject }: Fields, at: Node, given: Pick<GivenNode, "nominal" | "unit" | "dimension">, stated: StatedValue) {
  const [own, unit] = [unitOf(given.unit), unitOf(stated.unit)];
  const asked = dimension(given.dimension);
  const misfit = (expected: string, remedy: string) =>
    void file.report(at, `step of ${subject} is ${stated.text}, the given ${asked.label}`, expected, remedy);
  if (own.log !== undefined && given.nominal > 0) {
    if (unit.log === undefined || !["dB", "dB (power)"].includes(unit.symbol))
      return misfit("a difference of levels, such as 1 dB", "write it in dB");
    return positive(unit.fromSI(stated.nominal), fromLevel(unit.fromSI(stated.nominal), { ...own.log, reference: 1 }));
  }
  if (own.affine === true) {
    if (unit.affine !== true && !/^K(\||$)/.test(stated.dimension))
      return misfit("a difference of temperatures, such as 5 °C", "write it in °C or K");
    const kelvin = unit.affine === true ? stated.nominal - unit.toSI(0) : stated.nominal;
    return positive(kelvin, kelvin);
  }
  if (!comparable(dimension(stated.dimension), asked)) return misfit(`a quantity of ${asked.label}`, "write it in a unit of the given");
  return positive(stated.nominal, stated.nominal);

  function positive(size: number, step: number): number | undefined {
    if (size > 0) return step;
    return void file.report(
      at,
      `step of ${subject} is ${stated.text}`,
      "a step above zero",
      "write how far to move the given to either side",
    );
  }
}
