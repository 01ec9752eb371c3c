/** The drawings that a worksheet can ask for by name, as a fixed list: adding one is adding a line here. */
import { WorkingsError } from "../../quantity/error";
import { boardReturn } from "./board-return";
import { boardStack } from "./board-stack";
import { chargingPath } from "./charging-path";
import type { Drawing } from "./define";
import { dischargePath } from "./discharge-path";
import { enclosureSection } from "./enclosure-section";
import { heatWays } from "./heat-ways";
import { lightPipe } from "./light-pipe";
import { railConverters } from "./rail-converters";
import { rfFilter } from "./rf-filter";

const all: readonly Drawing[] = [
  boardReturn,
  boardStack,
  chargingPath,
  dischargePath,
  enclosureSection,
  heatWays,
  lightPipe,
  railConverters,
  rfFilter,
];
const drawings: ReadonlyMap<string, Drawing> = new Map(all.map((drawing) => [drawing.name, drawing]));

/** The drawing of that name; throws WorkingsError with the names there are. */
export function drawingNamed(name: string): Drawing {
  const found = drawings.get(name);
  if (found !== undefined) return found;
  throw new WorkingsError("drawing", `no drawing is called '${name}'; there is ${[...drawings.keys()].join(", ")}`);
}
