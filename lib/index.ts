/** The public door of the package: quantities, formulas, worksheets. Units are at `workings/units`, physics at `workings/physics`. */

export { type Formula, formula } from "./formula/formula";
export { numericalFormula } from "./formula/numerical";
export type * from "./quantity/dimension-tables";
export type { Dim, Div, Inv, Mul, Pow, SI, Sqrt } from "./quantity/dimension-types";
export { WorkingsError } from "./quantity/error";
export { type FormatOptions, format } from "./quantity/format";
export { parseQuantity, quantity } from "./quantity/parse";
export { type Level, type LevelUnit, Quantity, type Unit } from "./quantity/quantity";
export type { Spread } from "./quantity/spread";
export { unitOf } from "./quantity/unit";
export { Curve } from "./sheet/curve";
export { E3, E6, E12, E24, E48, E96, E192 } from "./sheet/series";
export { Worksheet, worksheet } from "./sheet/worksheet";
