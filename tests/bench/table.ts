/** The table on the terminal. */
import { type Criterion, holds, type Row } from "./row";

const perSecond = { s: 1, ms: 1e3, µs: 1e6, ns: 1e9 } as const;

export function formatRow({ title, unit, times, criteria, notes }: Row): string {
  const width = Math.max(...[...times.map(({ name }) => name), ...criteria.map(({ what }) => what)].map((text) => text.length));
  const lines = [
    title,
    ...times.map(({ name, seconds, ratio }, i) => {
      const factor = i === 0 || ratio === undefined ? "" : `${digits(ratio)} × the time of ${times[0]?.name}`;
      return `  ${name.padEnd(width)}  ${`${digits(seconds * perSecond[unit])} ${unit}`.padStart(10)}  ${factor}`.trimEnd();
    }),
    ...criteria.map((criterion) => `  ${criterion.what.padEnd(width)}  ${verdict(criterion)}`),
    ...notes.map((note) => `  ${note}`),
  ];
  return `${lines.join("\n")}\n`;
}

function verdict(criterion: Criterion): string {
  const { measured, limit, is, unit } = criterion;
  const sign = { "at most": "≤", "at least": "≥", below: "<" }[is];
  return `${`${digits(measured)} ${unit}`.padStart(10)}  limit ${sign} ${digits(limit)} ${unit}  ${holds(criterion) ? "holds" : "DOES NOT HOLD"}`;
}

/** Three significant digits without an exponent. */
function digits(x: number): string {
  return String(Number(x.toPrecision(3)));
}
