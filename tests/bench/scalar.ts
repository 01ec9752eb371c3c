/** Four operations on quantities: 3 V × 0.2 A + 0.1 W, read in mW, compared with 0.1 W. */
import { createRequire } from "node:module";
import { add, multiply, smaller, type Unit, unit } from "mathjs";
import { ampere, mW, volt, watt } from "../../lib/units";
import { takeTurns, timed } from "./measure";
import { fasterThan, type Row } from "./row";

/** As much of js-quantities as is used here; it has no types of its own. */
interface Qty {
  readonly scalar: number;
  mul(other: Qty): Qty;
  add(other: Qty): Qty;
  to(unit: string): Qty;
  lt(other: Qty): boolean;
}
const makeQty = createRequire(`${process.cwd()}/`)("js-quantities") as (text: string) => Qty;

export async function scalarRows(): Promise<Row[]> {
  const times = await takeTurns(
    [
      { name: "Workings", run: () => timed(workings(), { calls: 400_000 }) },
      { name: "mathjs", run: () => timed(mathjs(), { calls: 10_000 }) },
      { name: "js-quantities", run: () => timed(jsQuantities(), { calls: 10_000 }) },
    ],
    9,
  );
  return [
    {
      title: "Quantities: multiply, add, read in another unit, compare",
      unit: "ns",
      times,
      criteria: [...fasterThan(times, "mathjs", 20), ...fasterThan(times, "js-quantities", 20)],
      notes: [],
    },
  ];
}

function workings() {
  const [voltage, current, power] = [volt(3), ampere(0.2), watt(0.1)];
  const answer = [0, 0];
  return () => {
    const total = voltage.mul(current).plus(power);
    answer[0] = total.in(mW);
    answer[1] = total.lessThan(power) ? 1 : 0;
    return answer;
  };
}

function mathjs() {
  const [voltage, current, power] = [unit(3, "V"), unit(0.2, "A"), unit(0.1, "W")];
  const answer = [0, 0];
  return () => {
    const total = add(multiply(voltage, current) as Unit, power) as Unit;
    answer[0] = total.toNumber("mW");
    answer[1] = smaller(total, power) ? 1 : 0;
    return answer;
  };
}

function jsQuantities() {
  const [voltage, current, power] = [makeQty("3 V"), makeQty("0.2 A"), makeQty("0.1 W")];
  const answer = [0, 0];
  return () => {
    const total = voltage.mul(current).add(power);
    answer[0] = total.to("mW").scalar;
    answer[1] = total.lt(power) ? 1 : 0;
    return answer;
  };
}
