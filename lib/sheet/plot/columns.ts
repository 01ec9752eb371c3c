/** A Vega-Lite specification for a notebook: the points of its lines by column, a third as long as by row. The same picture. */
import type { TopLevelSpec } from "vega-lite";

type Row = Readonly<Record<string, unknown>>;
interface Layer {
  readonly data?: { readonly name?: string };
  readonly transform?: readonly unknown[];
}

/** For each series one row with lists of numbers, which every layer that draws lines unfolds. */
export function inColumns(spec: TopLevelSpec): TopLevelSpec {
  const { datasets = {}, layer = [] } = spec as unknown as { datasets?: Record<string, readonly Row[]>; layer?: readonly Layer[] };
  const { lines = [] } = datasets;
  const fields = [...new Set(lines.flatMap(Object.keys))].filter((key) => key !== "series" && key !== "order");
  const unfolded = [{ flatten: fields }, { window: [{ op: "row_number", as: "order" }], groupby: ["series"] }];
  return {
    ...spec,
    datasets: { ...datasets, lines: columns(lines, fields) },
    layer: layer.map((one) => (one.data?.name === "lines" ? { ...one, transform: [...unfolded, ...(one.transform ?? [])] } : one)),
  } as unknown as TopLevelSpec;
}

function columns(lines: readonly Row[], fields: readonly string[]): Row[] {
  const names = [...new Set(lines.map(({ series }) => series))];
  return names.map((series) => {
    const own = lines.filter((row) => row.series === series);
    // A list that is too short is unfolded with nothing at its end.
    return { series, ...Object.fromEntries(fields.map((key) => [key, own.some((row) => key in row) ? own.map((row) => row[key]) : []])) };
  });
}
