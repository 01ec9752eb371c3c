/** Random formulas, right and wrong, from a fixed seed: what the compiler and the run time must agree on beyond the list written by hand. */
import fc from "fast-check";

export const randomSymbols = {
  V: "Voltage",
  I: "Current",
  R: "Resistance",
  x: "Dimensionless",
  T: "Temperature",
  dT: "TemperatureDifference",
  E: "Energy",
  f: "Frequency",
  L: "FieldGain level",
  P: "Power level",
} as const;

const binary = ["+", "-", "*", "/", " + ", " - ", "*", "/", "^"] as const;
const calls = ["sqrt", "exp", "abs", "sign", "ln", "log10", "cbrt", "round", "foo"] as const;
const pairs = ["max", "min", "atan2", "sqrt", "powersum"] as const;

const leaf = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...Object.keys(randomSymbols)) },
  { weight: 2, arbitrary: fc.constantFrom("2", "0", "0.5", "1", "3", "1e-3", "pi", "(1/2)") },
  { weight: 1, arbitrary: fc.constantFrom("V_x", "2V", "e") },
);

const { tree } = fc.letrec<{ tree: string }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4, depthIdentifier: "formula" },
    leaf,
    fc.tuple(tie("tree"), fc.constantFrom(...binary), tie("tree")).map((parts) => parts.join("")),
    fc.tuple(tie("tree"), fc.constantFrom(...binary), tie("tree")).map((parts) => parts.join("")),
    tie("tree").map((t) => `(${t})`),
    tie("tree").map((t) => `-${t}`),
    fc.tuple(fc.constantFrom(...calls), tie("tree")).map(([f, t]) => `${f}(${t})`),
    fc.tuple(fc.constantFrom(...pairs), tie("tree"), tie("tree")).map(([f, s, t]) => `${f}(${s}, ${t})`),
    fc
      .tuple(tie("tree"), fc.constantFrom(">", "<=", "!="), tie("tree"), leaf, tie("tree"))
      .map(([a, c, b, s, t]) => `if(${a} ${c} ${b}, ${s}, ${t})`),
  ),
}));

/** Some are cut off or have a character put in, so that their order of tokens is wrong. */
const spoilt = fc.tuple(tree, fc.nat(60), fc.constantFrom(")", "(", "*", " V ", ",", "=", "")).map(([t, at, mark]) => {
  const place = at % (t.length + 1);
  return mark === "" ? t.slice(0, place) : t.slice(0, place) + mark + t.slice(place);
});

export function randomFormulas(count: number): readonly string[] {
  const any = fc.oneof({ weight: 4, arbitrary: tree }, { weight: 1, arbitrary: spoilt });
  return [...new Set(fc.sample(any, { numRuns: count, seed: 20_260_101 }))].filter((text) => text.length < 200);
}
