/** The coherent SI unit of a dimension. */
import type { Dimension } from "./dimension";
import { namedDimensions } from "./named-dimensions";
import type { Unit } from "./quantity";
import { linear } from "./unit-forms";
import { readUnit } from "./unit-text";

const symbols = new Map(namedDimensions.map((row) => [row.kind === undefined ? row.si : `${row.si}|${row.kind}`, row.unit]));
const units = new Map<Dimension, Unit<any>>();

/** In which results are shown that were never given a unit: `V`, `K/W`, else `kg·m·s⁻²·K⁻¹`. The same object each time. */
export function coherentUnit(dimension: Dimension): Unit<any> {
  const known = units.get(dimension);
  if (known !== undefined) return known;
  const unit = newUnit(dimension);
  units.set(dimension, unit);
  return unit;
}

function newUnit(dimension: Dimension): Unit<any> {
  const symbol = symbols.get(dimension.key) ?? symbols.get(dimension.si) ?? dimension.si;
  const read = readUnit(symbol, dimension);
  if ("reason" in read) return linear({ symbol, dimension, ucum: "" }, 1);
  if (read.dimension === dimension) return read;
  // J as a text is energy; here it can be work, which has no kind.
  return linear({ symbol, dimension, ucum: read.ucum, ...(read.stem && { stem: read.stem }) }, 1);
}
