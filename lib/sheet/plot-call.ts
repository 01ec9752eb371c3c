/** The plot call of a worksheet: names the curves and the units of the axes, draws, shows. */
import { assignable, type Dimension, dimension, dimensionless } from "../quantity/dimension";
import type { Dim } from "../quantity/dimension-types";
import type { Unit } from "../quantity/quantity";
import type { Axis, PlotBlock, PlotSeries, SeriesColour } from "./block";
import { type Curve, curveUnits } from "./curve";
import { omittedWords, plotData } from "./plot/data";
import { keyWords } from "./plot/key-words";
import { renderPlot } from "./plot/plot";
import type { AnyQuantity, Session } from "./session";

// Axes of whatever dimension; explicit variance refuses Unit<Dim>
type Any = any;

interface AxisOptions {
  readonly label: string;
  readonly unit: Unit<Any>;
  /** Linear unless stated. */
  readonly scale?: "linear" | "log";
  /** Ends of the axis, in its unit. */
  readonly from?: number;
  readonly to?: number;
}

interface SeriesOptions {
  readonly label: string;
  readonly curve?: Curve<Any, Any>;
  /** Points joined by a line when there are two or more; those with a label are marked. */
  readonly points?: readonly { readonly x: AnyQuantity; readonly y: AnyQuantity; readonly label?: string }[];
  /** Draw the 95 % interval and the worst case about the curve. */
  readonly band?: boolean;
  /** Draw the curve's abscissa upwards. */
  readonly transposed?: boolean;
  /**
   * The requirement that the curve is to meet. Where all such curves of the plot meet theirs, as it is judged, the plot is shaded, less
   * what the tolerance of the given under it takes at either end. Judged by more than the nominal value it needs `band`.
   */
  readonly within?: string;
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
  /** Limits to draw across the plot: a quantity, or those of a requirement of the design file. */
  readonly rules?: readonly RuleOptions[];
}

export type RuleOptions = { readonly axis: "x" | "y"; readonly label: string } & (
  | { readonly at: AnyQuantity }
  | { readonly requirement: string }
);

const none: AxisOptions = { label: "", unit: { symbol: "1", dimension: dimensionless } as Unit<Dim> };

/** Draws a plot. Throws where nothing is to be drawn, or something in another dimension than that of its axis. */
export function plot(session: Session, options: PlotOptions): void {
  const { name, caption, x, y = none, series = [], spreads, colours } = options;
  const rules = options.rules?.flatMap((rule) => linesOf(session, rule));
  if (series.length === 0 && spreads === undefined)
    throw session.error("worksheet", `plot "${name}" has neither series nor spreads to draw`);
  for (const { label, axis, found } of [...drawn(session, options), ...(rules ?? [])]) {
    const wanted = { x, y }[axis].unit.dimension;
    if (!assignable(found, wanted))
      throw session.error("dimension", `plot "${name}": ${label} must be ${wanted.label} on the ${axis} axis, got ${found.label}`);
  }
  const bare = series.find(
    ({ within, band }) => within !== undefined && band !== true && session.design.requirement(within).judged !== "typical",
  );
  if (bare !== undefined)
    throw session.error(
      "worksheet",
      `plot "${name}": ${bare.label} is to keep within ${bare.within}, which is judged by its spread; add band: true`,
    );
  session.name("plot", name);
  const block: PlotBlock = {
    type: "plot",
    name,
    caption,
    ...(colours === undefined ? {} : { colours }),
    x: axisOf(x),
    y: axisOf(y),
    series: series.map((one) => seriesOf(session, one)),
    ...(spreads === undefined
      ? {}
      : { spreads: Object.entries(spreads).map(([label, quantity]) => ({ label, node: session.enter(quantity) })) }),
    ...(rules === undefined ? {} : { rules: rules.map(({ axis, label, value }) => ({ axis, label, value })) }),
  };
  session.show(block, [], [], {
    svg: renderPlot(block, session.evaluation, `${session.sheet}-${name}`),
    key: keyWords(block, plotData(block, session.evaluation)),
    warnings: omittedWords(block, session.evaluation).map((text) => `plot "${name}": ${text}`),
  });
}

interface Drawn {
  readonly label: string;
  readonly axis: "x" | "y";
  readonly found: Dimension;
}

interface Line extends Drawn {
  readonly value: number;
}

/** A requirement with two limits gives two lines. */
function linesOf(session: Session, rule: RuleOptions): Line[] {
  const { axis, label } = rule;
  if ("at" in rule) return [{ axis, label, found: rule.at.dimension, value: rule.at.si }];
  const { limit, dimension: key } = session.design.requirement(rule.requirement);
  const limits = [limit.low, limit.high].filter((value) => value !== undefined);
  return limits.map((value) => ({ axis, label, found: dimension(key), value }));
}

/** The dimension of everything that a plot draws along an axis. */
function drawn(session: Session, { series = [], spreads = {} }: PlotOptions): Drawn[] {
  const along = (label: string, x: Dimension, y: Dimension): Drawn[] => [
    { label, axis: "x", found: x },
    { label, axis: "y", found: y },
  ];
  const limits = series.flatMap(({ within }): Drawn[] =>
    within === undefined
      ? []
      : [{ label: `requirement ${within}`, axis: "y", found: dimension(session.design.requirement(within).dimension) }],
  );
  const curves = series.flatMap(({ label, curve, transposed }) => {
    if (curve === undefined) return [];
    const { x, y } = curveUnits(session, curve.id);
    return transposed === true
      ? along(label, dimension(y.dimension), dimension(x.dimension))
      : along(label, dimension(x.dimension), dimension(y.dimension));
  });
  const points = series.flatMap(({ label, points = [] }) => points.flatMap(({ x, y }) => along(label, x.dimension, y.dimension)));
  const bars = Object.entries(spreads).map(([label, quantity]): Drawn => ({ label, axis: "x", found: quantity.dimension }));
  return [...curves, ...points, ...bars, ...limits];
}

function axisOf({ label, unit, scale = "linear", from, to }: AxisOptions): Axis {
  return { label, unit: unit.symbol, scale, ...(from === undefined ? {} : { low: from }), ...(to === undefined ? {} : { high: to }) };
}

function seriesOf(session: Session, { label, curve, points, band, transposed, within }: SeriesOptions): PlotSeries {
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
    ...(within === undefined ? {} : { within: limitOf(session, within) }),
  };
}

function limitOf(session: Session, requirement: string): NonNullable<PlotSeries["within"]> {
  const { limit, judged } = session.design.requirement(requirement);
  return { ...limit, judged };
}
