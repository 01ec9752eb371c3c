import { describe, expect, it } from "vitest";
import { formula } from "../../lib/formula/formula";
import type { Quantity, Unit } from "../../lib/quantity/quantity";
import { mA, ohm, volt } from "../../lib/units";
import { anewForEachTest, givens, loose, resistor, sheet } from "./lamp-sheet";

anewForEachTest();

describe("a call whose mistake the compiler cannot see", () => {
  // Quantities of unknown dimension pass the compiler, so these are refused at run time, in the compiler's words.
  const unseen = (): Record<"V_s" | "V_f" | "I", Quantity<any>> => givens();
  const resistorLaw = formula("R = (V_s - V_f)/I", { V_s: volt, V_f: volt, I: mA }, ohm, { meaning: "series resistor", source: "Ohm" });
  const curve = () => sheet.given({ iv: ["iv", volt, mA] }).iv;
  const rail = () =>
    sheet.alternatives("rail", { low: { label: "low" }, high: { label: "high" } }, (_, name) => ({
      V: sheet.given({ V: [name, volt] }).V,
    }));

  it.each<[string, () => unknown, string]>([
    [
      "an argument of a formula",
      () => sheet.derive(resistorLaw, { ...unseen(), V_s: unseen().I }, ohm),
      "V_s must be voltage, got current",
    ],
    [
      "a number",
      () => sheet.derive(resistorLaw, { ...unseen(), V_s: loose<Quantity<any>>(5) }, ohm),
      "V_s must be voltage, got no quantity",
    ],
    [
      "an argument left out",
      () => sheet.derive(resistorLaw, loose<ReturnType<typeof unseen>>({ V_s: unseen().V_s }), ohm),
      "V_f is missing: voltage",
    ],
    [
      "no arguments",
      () => sheet.derive(resistorLaw, loose<ReturnType<typeof unseen>>(undefined), ohm),
      "derive takes the quantities of the law by symbol",
    ],
    ["a unit", () => sheet.derive(resistorLaw, unseen(), loose<Unit<any>>(volt)), "the law gives resistance, not voltage"],
    ["no law", () => sheet.derive(loose<string>(5), unseen(), ohm, "nonsense"), "derive takes the text of a law, a formula or a model"],
    [
      "a given without a unit",
      () => sheet.given({ V: loose<[string, Unit<any>]>(["high"]) }),
      "V must be [path, unit], or [path, unit, unit] for a table",
    ],
    ["the end of a sweep", () => sheet.sweep(resistor(), unseen().V_s, { from: unseen().I }), "from must be voltage, got current"],
    ["an abscissa", () => curve().at(unseen().I), "the abscissa must be voltage, got current"],
    ["an ordinate", () => curve().crossing(unseen().V_s), "the ordinate must be current, got voltage"],
    [
      "a criterion",
      () =>
        sheet.decide(
          rail(),
          loose<Parameters<typeof sheet.decide>[1]>({ question: "which", criteria: { X: { label: "x", better: "lower" } } }),
        ),
      "the alternatives give no quantity 'X'",
    ],
    [
      "an axis",
      () =>
        sheet.plot({
          name: "p",
          caption: "c",
          x: { label: "U", unit: mA },
          y: { label: "I", unit: mA },
          series: [{ label: "lamp", curve: curve() }],
        }),
      'plot "p": lamp must be current on the x axis, got voltage',
    ],
    [
      "a bar",
      () => sheet.plot({ name: "p", caption: "c", x: { label: "U", unit: mA }, spreads: { high: unseen().V_s } }),
      'plot "p": high must be current on the x axis, got voltage',
    ],
    [
      "a symbol of a text that stands for no quantity",
      () => sheet.derive("X = V*2", { V: 5 as unknown as Quantity<any> }, volt, "nonsense"),
      '"X = V*2": ✗ V is no quantity',
    ],
    [
      "a quantity for all arguments",
      () => sheet.derive("X = V*2" as string, unseen().V_s as any, volt, "nonsense"),
      "lamp: derive takes the quantities of the law by symbol, as in { V: V, I: I }",
    ],
    [
      "a member whose results are not returned",
      () => sheet.each("led", { red: 1 }, (): any => undefined),
      "lamp: led[red]: return the results by name, as in { R: R }",
    ],
    [
      "a member with a curve among its results",
      () => sheet.each("led", { red: 1 }, (): any => ({ V: unseen().V_s, iv: curve() })),
      "lamp: led[red]: iv must be a quantity, or quantities by name",
    ],
    [
      "an alternative without a label",
      () => sheet.alternatives("rail", { a: { label: "A" }, b: {} as any }, () => ({ V: unseen().V_s })),
      "lamp: rail[b]: an alternative needs a label",
    ],
    ["a result taken without its unit", () => sheet.take({ R: ["other.R"] as any }), "lamp: R must be [sheet.name, unit]"],
  ])("is refused for %s", (_, call, sentence) => {
    expect(call).toThrow(sentence);
  });
});
