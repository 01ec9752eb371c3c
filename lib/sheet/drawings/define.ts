/** What a drawing is: a pure function from quantities (plain SI numbers) to SVG, with a name under which cells ask for it. */
import { WorkingsError } from "../../quantity/error";
import type { Unit } from "../../quantity/quantity";
import type { DrawingStyle } from "./svg";

/** Display units by argument; they also fix each argument's dimension. */
export type DrawingArguments = Readonly<Record<string, Unit<any>>>;

export interface Drawing<A extends DrawingArguments = DrawingArguments> {
  /** `light.pipe`: subject and thing. */
  readonly name: string;
  readonly meaning: string;
  readonly arguments: A;
  /** SVG text from SI numbers. Throws WorkingsError for a missing, negative or non-finite size. */
  readonly draw: (values: Readonly<Record<keyof A, number>>, style: DrawingStyle) => string;
}

/** Makes a drawing whose sizes are checked before it draws: every argument must be a positive finite number. */
export function defineDrawing<A extends DrawingArguments>(definition: Drawing<A>): Drawing<A> {
  return {
    ...definition,
    draw: (values, style) => {
      for (const [name, unit] of Object.entries(definition.arguments)) check(definition.name, name, values[name], unit);
      return definition.draw(values, style);
    },
  };
}

function check(drawing: string, argument: string, value: number | undefined, unit: DrawingArguments[string]): void {
  if (value !== undefined && Number.isFinite(value) && value > 0) return;
  const found = value === undefined ? "is missing" : `is ${unit.fromSI(value)} ${unit.symbol}`;
  throw new WorkingsError("drawing", `drawing ${drawing}: ${argument} ${found}; it must be a positive size in ${unit.symbol}`);
}
