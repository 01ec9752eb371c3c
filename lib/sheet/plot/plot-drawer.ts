/** Compiles and draws plots as `plot.ts` does, but none a second time that shows the same: most plots outlast a change of the book. */
import type { Spec } from "vega";
import type { Evaluation } from "../../analysis/evaluation";
import type { PlotBlock } from "../block";
import { compileLite, drawSpec, plotData, vegaLite } from "./plot";
import type { Room } from "./room";

/** Kept at most; a plot has an entry for its specification and one for each place at which it is drawn. */
const most = 500;

export class PlotDrawer {
  private readonly specs = new Map<string, Spec>();
  private readonly pictures = new Map<string, string>();

  compile(block: PlotBlock, evaluation: Evaluation, room: Room = "wide"): Spec {
    const lite = vegaLite(block, plotData(block, evaluation, room), room);
    return remembered(this.specs, JSON.stringify(lite), () => compileLite(lite));
  }

  render(block: PlotBlock, evaluation: Evaluation, idPrefix: string): string {
    const spec = this.compile(block, evaluation);
    return remembered(this.pictures, `${idPrefix} ${JSON.stringify(spec)}`, () => drawSpec(spec, idPrefix));
  }
}

/** The entry used longest ago goes first. */
function remembered<T>(known: Map<string, T>, key: string, make: () => T): T {
  const value = known.get(key) ?? make();
  known.delete(key);
  known.set(key, value);
  const [oldest] = known.keys();
  if (known.size > most && oldest !== undefined) known.delete(oldest);
  return value;
}
