/** Units from text. The grammar is in `unit-text.ts`, the units are rows of `unit-table.ts`. */
import type { Dimension } from "./dimension";
import { type LevelUnit, makeUnit, type Unit } from "./quantity";
import type { Scale } from "./scale";
import { scaleOf } from "./unit-text";

const units = new WeakMap<Scale, Unit<any>>();

/**
 * The unit of a text: `kΩ`, `W/(m·K)`, `nV/√Hz`, `ppm/K`, `dB SPL`. Of texts with two readings (dB as a gain of
 * voltages or of powers, °C as a temperature or a difference) `asked` chooses one; without it the first is taken.
 * The same object each time. Throws `unit-text` with the place and the nearest names.
 */
export function unitOf(text: `dB${string}`, asked?: Dimension): LevelUnit<any>;
export function unitOf(text: string, asked?: Dimension): Unit<any>;
export function unitOf(text: string, asked?: Dimension): Unit<any> {
  return unitFrom(scaleOf(text, asked));
}

/** The callable unit of a scale, the same object each time. */
export function unitFrom(scale: Scale): Unit<any> {
  const known = units.get(scale);
  if (known !== undefined) return known;
  const unit = makeUnit(scale);
  units.set(scale, unit);
  return unit;
}
