/** Compiled Vega specifications without and with the rows of their datasets. */
import type { Spec } from "vega";

type Rows = Readonly<Record<string, readonly object[]>>;

interface DataEntry {
  readonly name: string;
  readonly values?: unknown;
}

/** The specification without the rows that the page computes anew. */
export function withoutData(spec: unknown, names: readonly string[]): unknown {
  return mapData(spec, (entry) => (names.includes(entry.name) ? { ...entry, values: [] } : entry));
}

/** The specification with these rows. */
export function withData(spec: unknown, rows: Rows): Spec {
  return mapData(spec, (entry) => {
    const values = rows[entry.name];
    return values ? { ...entry, values } : entry;
  }) as Spec;
}

function mapData(spec: unknown, change: (entry: DataEntry) => DataEntry): unknown {
  if (typeof spec !== "object" || spec === null) return spec;
  const { data } = spec as { readonly data?: unknown };
  return Array.isArray(data) ? { ...spec, data: data.map((entry) => change(entry as DataEntry)) } : spec;
}
