/** Functions of one value that rise wherever they have a value; steps and signs never fall. */
import { Code } from "../graph/code";

export const risingFunctions: ReadonlySet<number> = new Set([
  Code.sqrt,
  Code.cbrt,
  Code.exp,
  Code.ln,
  Code.log10,
  Code.log2,
  Code.asin,
  Code.atan,
  Code.sinh,
  Code.tanh,
  Code.ceil,
  Code.floor,
  Code.round,
  Code.sign,
]);
