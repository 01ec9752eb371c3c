/** Quantities as data sheets write them, with what they are in SI. A library is timed on the strings that it reads rightly. */
import { createRequire } from "node:module";
import { unit } from "mathjs";
import { quantity } from "../../lib/quantity/parse";
import { takeTurns, timed } from "./measure";
import { fasterThan, type Row } from "./row";

const texts: readonly (readonly [text: string, si: number])[] = [
  ["4.7 kΩ", 4700],
  ["4k7", 4700],
  ["270 ohm", 270],
  ["100nF", 1e-7],
  ["10 µF", 1e-5],
  ["2.2 uH", 2.2e-6],
  ["12 nV/√Hz", 1.2e-8],
  ["25 °C", 298.15],
  ["-40 °C", 233.15],
  ["50 ppm/°C", 5e-5],
  ["62 K/W", 62],
  ["1.5 W/(m·K)", 1.5],
  ["3.3 V ±5 %", 3.3],
  ["4.5 V", 4.5],
  ["2.8 mA", 2.8e-3],
  ["1200 mAh", 4320],
  ["20 kHz", 2e4],
  ["217 Hz", 217],
  ["96 kPa", 96e3],
  ["70 GPa", 7e10],
  ["2.70 g/cm³", 2700],
  ["110 dB SPL", 2e-5 * 10 ** (110 / 20)],
  ["-90 dBV", 10 ** (-90 / 20)],
  ["0.8 mm", 8e-4],
  ["3 h", 10_800],
];

type Reader = (text: string) => number;

const makeQty = createRequire(`${process.cwd()}/`)("js-quantities") as (text: string) => { toBase(): { scalar: number } };

const readers: Readonly<Record<string, Reader>> = {
  Workings: (text) => quantity(text).si,
  "js-quantities": (text) => makeQty(text).toBase().scalar,
  mathjs: (text) => {
    const { value } = unit(text).toSI() as unknown as { value: number };
    return value;
  },
};

export async function stringRows(): Promise<Row[]> {
  const right = new Map(Object.entries(readers).map(([name, read]) => [name, texts.filter(([text, si]) => isRight(read, text, si))]));
  const rows: Row[] = [];
  for (const peer of ["js-quantities", "mathjs"]) {
    const common = right.get(peer)?.filter((one) => right.get("Workings")?.includes(one)) ?? [];
    const times = await takeTurns(
      ["Workings", peer].map((name) => ({ name, run: () => reading(readers[name] as Reader, common) })),
      9,
    );
    rows.push({
      title: `Reading data-sheet strings, the ${common.length} of ${texts.length} that ${peer} reads rightly, each`,
      unit: "µs",
      times,
      criteria: peer === "js-quantities" ? [allRight(right.get("Workings")?.length ?? 0), ...fasterThan(times, peer, 1)] : [],
      notes: peer === "js-quantities" ? [] : ["the same strings again and again: caches of all are warm"],
    });
  }
  return rows;
}

function allRight(count: number): Row["criteria"][number] {
  return { what: "strings read rightly by Workings", measured: count, limit: texts.length, is: "at least", unit: "" };
}

function reading(read: Reader, strings: typeof texts) {
  return timed(() => strings.map(([text]) => read(text)), { calls: 1500, work: strings.length });
}

function isRight(read: Reader, text: string, si: number): boolean {
  try {
    return Math.abs(read(text) - si) <= 1e-9 * Math.abs(si);
  } catch {
    return false;
  }
}
