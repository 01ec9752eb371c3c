/**
 * Reads quantities from text, strictly: what has two readings, or something left over, is an error that names the
 * column. One scan. Grammar, with U a unit (`unit-text.ts`), x a number (4.7, .5, 2.4e9, 2.4×10⁹):
 *
 *     value        x U | x | 4k7 | R47 | 2n2 F                  IEC 60062 codes in `letter-code.ts`
 *                  10 000 U                                     groups of three digits, SI Brochure 9th ed. 5.4.4
 *                  0000 AWG | 4/0 AWG                           wire gauges beyond 0
 *     tolerance    value ±x U | value ±x % | (x ± x) U          rectangular; also +/- and +-
 *                  value +x/-x U                                split: half of the units on either side
 *                  value (x to x U)   min x, typ x, max x U     split
 *                  value ±x U (3σ)    value σ x U   9.109(28)e-31 kg    normal
 *                  value ±x U (triangular), value (x to x U, triangular)
 *     factor       value ×/÷x   value ×/÷x (3σ)                 rectangular, normal in the logarithm: log-normal
 *     bins         one of x U, x U, …   value, one of …         discrete, equally likely, nominal first listed or stated
 *                  one of x U (x %), x U (x %), …               with the share of units of each
 *     range        x U to x U         value in x U to x U       a condition of use, nominal in the middle or stated
 *     alone        ±1 %               ±0.2 mV                   nominal 0
 *
 * Behind a bare ± (rectangular), (kσ), σ and 9.109(28) may stand ν x, the degrees of freedom of that uncertainty: 50.0006 mm σ 25 nm ν 18;
 * normal is then Student's t. A unit left out is that of its neighbour; behind ± it cannot be left out where % could be
 * meant (14 mA ±10) or beside a code (4k7 ±10). % and ppm are of the value. Beside a level every ± is in dB and is
 * rectangular in dB. Beside a temperature ± is a difference.
 */
import type { Stated } from "./amount";
import { excerpt } from "./characters";
import { type Dimension, readable } from "./dimension";
import { WorkingsError } from "./error";
import { isBelowZero, limitsOf, scaleOf } from "./limits";
import { readStated } from "./parse-spread";
import { Quantity } from "./quantity";
import { Scanner, smallestNumber } from "./scanner";

export interface ParseOptions {
  /** Dimension that the text must have; its kind chooses between readings (2n2, dB, °C). */
  readonly dimension?: Dimension;
}

/** The quantity of a text, `4.7 kΩ ±1 %`, with its spread and unit. Throws `quantity-text` with the column, and candidates where there are any. */
export function quantity(text: string): Quantity<any> {
  return parseQuantity(text);
}

/** Like `quantity`, with a dimension asked for; throws `dimension` where the text has another. */
export function parseQuantity(text: string, options: ParseOptions = {}): Quantity<any> {
  const { nominal, scale: unit, spread } = readWhole(text, options.dimension);
  return new Quantity<any>(nominal, unit.dimension, unit, { spread });
}

function readWhole(text: string, asked: Dimension | undefined): Stated {
  const scanner = new Scanner(text, asked);
  if (scanner.done()) throw scanner.trouble(0, "the text is empty; a number is expected");
  if (/^[+-]?(?:nan|inf(?:inity)?|∞)/i.test(text.trim())) throw scanner.trouble(0, "a quantity is a finite number");
  const result = readStated(scanner);
  if (!scanner.done()) throw scanner.trouble(scanner.at, `"${excerpt(scanner.rest())}" is left over`);
  refuseExtremes(scanner, result);
  refuseBelowZero(scanner, result);
  const { dimension } = result.scale;
  if (asked !== undefined && !readable(dimension, asked)) {
    throw new WorkingsError("dimension", `"${excerpt(text)}" is ${dimension.label}; ${asked.label} is expected`, {
      text,
      dimension: dimension.key,
      expected: asked.key,
    });
  }
  return result;
}

/** No temperature lies below absolute zero, nor does what its tolerance allows. Kelvins without a kind may be a difference. */
function refuseBelowZero(scanner: Scanner, { nominal, spread, scale }: Stated): void {
  const isTemperature = [scale.dimension.key, scanner.asked?.key].includes("K|temperature") && scale.dimension.kind !== "difference";
  if (isTemperature && isBelowZero(Math.min(nominal, ...limitsOf(spread, nominal))))
    throw scanner.trouble(0, "no temperature lies below absolute zero, 0 K or −273.15 °C", []);
}

/** Limits in SI: those of levels leave the numbers of the machine early, 20 000 dB is 10^1000. */
function refuseExtremes(scanner: Scanner, { nominal, spread }: Stated): void {
  const limits = limitsOf(spread, nominal);
  const levels = scaleOf(spread) !== undefined;
  if (!limits.every(Number.isFinite)) throw scanner.trouble(0, "a limit of the spread is too large");
  if (levels && limits.some((limit) => limit < smallestNumber)) throw scanner.trouble(0, "a limit of the spread is too small");
}
