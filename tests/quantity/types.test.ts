import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { namedDimensions } from "../../lib/quantity/named-dimensions";
import { compileAsNotebook, compileStrict, imports } from "../types/compile";

const cases = readFileSync(new URL("../types/quantity.ts", import.meta.url), "utf8").replaceAll(
  '"../../lib/',
  `"${new URL("../../lib/", import.meta.url).pathname}`,
);

test("what must compile does, and what must not does not, in TypeScript 5.0 without strict", () => {
  const { errors, instantiations } = compileAsNotebook(cases);
  expect(errors).toEqual([]);
  // 26 583 when written; a third more is a change to look at, since notebooks wait for it.
  expect(instantiations).toBeLessThan(34_600);
});

test("what must compile does, and what must not does not, in the current TypeScript with strict", () => {
  expect(compileStrict(cases)).toEqual([]);
});

const header = [
  imports({ "quantity/quantity": ["Quantity", "Unit", ...namedDimensions.map((row) => row.name)] }),
  "declare const v: Quantity<Voltage>, i: Quantity<Current>, E: Quantity<Energy>, M: Quantity<Torque>, T: Quantity<Temperature>, dT: Quantity<TemperatureDifference>, W: Quantity<Work>;",
  "declare const ampere: Unit<Current>, joule: Unit<Energy>, celsius: Unit<Temperature>;",
].join("\n");

/** A wrong line, and the one line that the compilers say about it. */
const wrong = {
  "v.plus(i)": argument("Quantity<Current>", "✗ cannot add current to voltage"),
  "i.plus(v)": argument("Quantity<Voltage>", "✗ cannot add voltage to current"),
  "v.minus(i)": argument("Quantity<Current>", "✗ cannot subtract current from voltage"),
  "E.plus(M)": argument("Quantity<Torque>", "✗ cannot add torque to energy"),
  "W.plus(v)": argument("Quantity<Voltage>", "✗ cannot add voltage to energy or torque"),
  "v.mul(i).plus(v)": argument("Quantity<Voltage>", "✗ cannot add voltage to power"),
  "v.mul(v).mul(v).plus(v)": argument("Quantity<Voltage>", "✗ cannot add voltage to kg³·m⁶·s⁻⁹·A⁻³"),
  "T.plus(T)": argument("Quantity<Temperature>", "✗ cannot add temperature to temperature: add a temperature difference"),
  "dT.minus(T)": argument("Quantity<Temperature>", "✗ cannot subtract temperature from temperature difference"),
  "v.lessThan(i)": argument("Quantity<Current>", "✗ cannot compare voltage with current"),
  "T.max(dT)": argument("Quantity<TemperatureDifference>", "✗ cannot compare temperature with temperature difference"),
  "v.in(ampere)": argument("Unit<Current>", "✗ voltage has no value in a unit of current"),
  "M.in(joule)": argument("Unit<Energy>", "✗ torque has no value in a unit of energy"),
  "M.as(joule)": argument("Unit<Energy>", "✗ torque has no value in a unit of energy"),
  "dT.in(celsius)": argument("Unit<Temperature>", "✗ temperature difference has no value in a unit of temperature"),
  "v.pow(0.25)": argument("0.25", "✗ voltage to the power 0.25: powers of units must be whole or half"),
  "v.plus(1)": "Argument of type 'number' is not assignable to parameter of type 'Quantity<any>'.",
  "void (v > i)": "Operator '>' cannot be applied to types 'Quantity<Voltage>' and 'Quantity<Current>'.",
};

function argument(given: string, sentence: string): string {
  return `Argument of type '${given}' is not assignable to parameter of type '"${sentence}"'.`;
}

const text = [header, ...Object.keys(wrong).map((line) => `${line};`)].join("\n");

test("wrong arithmetic is an error of one line that says what is wrong, in TypeScript 5.0 without strict", () => {
  expect(compileAsNotebook(text).errors.map(({ message }) => message)).toEqual(Object.values(wrong));
});

test("wrong arithmetic is an error of one line that says what is wrong, in the current TypeScript with strict", () => {
  expect(compileStrict(text).map(({ message }) => message)).toEqual(Object.values(wrong));
});

test("a quantity of another dimension is refused in three lines at most", () => {
  const [error] = compileAsNotebook(`${header}\nconst q: Quantity<Energy> = M;`).errors;
  expect(error?.message.split("\n").map((line) => line.trim())).toEqual([
    "Type 'Quantity<Torque>' is not assignable to type 'Quantity<Energy>'.",
    "Types of property 'label' are incompatible.",
    `Type '"torque"' is not assignable to type '"energy"'.`,
  ]);
});
