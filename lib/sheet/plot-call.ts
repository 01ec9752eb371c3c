/** The plot call of a worksheet: names the curves and the units of the axes, draws, shows. */
import type { Dim } from "../quantity/dimension-types";
import type { Unit } from "../quantity/quantity";
import type { Axis, PlotBlock, PlotSeries, SeriesColour } from "./block";
import type { Curve } from "./curve";
import { plotData, renderPlot, vegaLite } from "./plot/plot";
import type { AnyQuantity, Session } from "./session";

// Axes of whatever dimension; explicit variance refuses Unit<Dim>
type Any = any;

export interface AxisOptions {
  readonly label: string;
  readonly unit: Unit<Any>;
  /** Linear unless stated. */
  readonly scale?: "linear" | "log";
  /** Ends of the axis, in its unit. */
  readonly from?: number;
  readonly to?: number;
}

export interface SeriesOptions {
  readonly label: string;
  readonly curve?: Curve<Any, Any>;
  /** Points joined by a line when there are two or more; those with a label are marked. */
  readonly points?: readonly { readonly x: AnyQuantity; readonly y: AnyQuantity; readonly label?: string }[];
  /** Draw the 95 % interval and the worst case about the curve. */
  readonly band?: boolean;
  /** Draw the curve's abscissa upwards. */
  readonly transposed?: boolean;
}

export interface PlotOptions {
  readonly name: string;
  readonly caption: string;
  readonly x: AxisOptions;
  readonly y?: AxisOptions;
  readonly series?: readonly SeriesOptions[];
  /** Instead of series: nominal, 95 % interval and worst case of each, side by side. */
  readonly spreads?: Readonly<Record<string, AnyQuantity>>;
  /** By label, where a colour means something. */
  readonly colours?: Readonly<Record<string, SeriesColour>>;
  /** Limits to draw across the plot. */
  readonly rules?: readonly { readonly axis: "x" | "y"; readonly label: string; readonly at: AnyQuantity }[];
}

const none: AxisOptions = { label: "", unit: { symbol: "1" } as Unit<Dim> };

/** Draws a plot. Throws where two plots of the sheet have one name or nothing is to be drawn. */
export function plot(session: Session, { name, caption, x, y = none, series = [], spreads, rules, colours }: PlotOptions): void {
  if (series.length === 0 && spreads === undefined)
    throw session.error("worksheet", `plot "${name}" has neither series nor spreads to draw`);
  const block: PlotBlock = {
    type: "plot",
    name,
    caption,
    ...(colours === undefined ? {} : { colours }),
    x: axisOf(x),
    y: axisOf(y),
    series: series.map((options) => seriesOf(session, options)),
    ...(spreads === undefined
      ? {}
      : { spreads: Object.entries(spreads).map(([label, quantity]) => ({ label, node: session.enter(quantity) })) }),
    ...(rules === undefined ? {} : { rules: rules.map(({ axis, label, at }) => ({ axis, label, value: at.si })) }),
  };
  session.show(block, [], [], {
    svg: renderPlot(block, session.evaluation, `${session.sheet}-${name}`),
    vegaLite: vegaLite(block, plotData(block, session.evaluation)),
  });
}

function axisOf({ label, unit, scale = "linear", from, to }: AxisOptions): Axis {
  return { label, unit: unit.symbol, scale, ...(from === undefined ? {} : { low: from }), ...(to === undefined ? {} : { high: to }) };
}

function seriesOf(session: Session, { label, curve, points, band, transposed }: SeriesOptions): PlotSeries {
  return {
    label,
    ...(curve === undefined ? {} : { curve: curve.id }),
    ...(points === undefined
      ? {}
      : {
          points: points.map(({ x, y, label: text }) => ({
            x: session.enter(x),
            y: session.enter(y),
            ...(text === undefined ? {} : { label: text }),
          })),
        }),
    ...(band === undefined ? {} : { band }),
    ...(transposed === undefined ? {} : { transposed }),
  };
}
