/** Units from text. The grammar is in `unit-text.ts`, the units are rows of `unit-table.ts`. */
import { excerpt } from "./characters";
import type { Dimension } from "./dimension";
import { WorkingsError } from "./error";
import type { LevelUnit, Unit } from "./quantity";
import "./quantity"; // whose class a unit needs when it is called
import { problemText, readUnit } from "./unit-text";

/**
 * The unit of a text: `kΩ`, `W/(m·K)`, `nV/√Hz`, `ppm/K`, `dB SPL`; of a stored symbol, the unit that has it. Of texts with two
 * readings (dB as a gain of voltages or of powers, °C as a temperature or a difference) `asked` chooses one; without it the first
 * is taken. The same object each time. Throws `unit-text` with the place and the nearest names.
 */
export function unitOf(text: `dB${string}`, asked?: Dimension): LevelUnit<any>;
export function unitOf(text: string, asked?: Dimension): Unit<any>;
export function unitOf(text: string, asked?: Dimension): Unit<any> {
  const unit = readUnit(text, asked);
  if (!("reason" in unit)) return unit;
  throw new WorkingsError("unit-text", `cannot read the unit "${excerpt(text)}" at column ${unit.at + 1}: ${problemText(unit)}`, {
    text,
    column: unit.at + 1,
    candidates: unit.candidates,
  });
}
