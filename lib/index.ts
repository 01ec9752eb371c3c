/** The public door of the package: quantities, formulas, worksheets. Units are at `workings/units`, physics at `workings/physics`. */
export type * from "./quantity/dimension-tables";
export type { Dim, Div, Inv, Mul, Pow, SI, Sqrt } from "./quantity/dimension-types";
export { WorkingsError } from "./quantity/error";
export { type FormatOptions, format } from "./quantity/format";
export { parseQuantity, quantity } from "./quantity/parse";
export { Quantity, type Unit } from "./quantity/quantity";
export type { Spread } from "./quantity/spread";
export { unitOf } from "./quantity/unit";
export { type Formula, formula } from "./formula/formula";
export { numericalFormula } from "./formula/numerical";
export { E12, E192, E24, E3, E48, E6, E96 } from "./sheet/series";
export { Curve } from "./sheet/curve";
export { Worksheet, worksheet } from "./sheet/worksheet";
