/** Texts that are quantities, nearly so, or nothing of the kind. */
import fc from "fast-check";
import { unitNames } from "./independent-units";

const digits = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 0, max: 9999 }).map(String) },
  { weight: 4, arbitrary: fc.tuple(fc.integer({ min: 0, max: 999 }), fc.integer({ min: 0, max: 99_999 })).map(([a, b]) => `${a}.${b}`) },
  fc.constantFrom(
    "0",
    "0.0",
    ".5",
    "1",
    "10",
    "100",
    "1e3",
    "2.4e9",
    "1e-12",
    "2.4×10⁹",
    "6.6 x 10^-3",
    "5·10^(-3)",
    "1e308",
    "1e-308",
    "1e400",
    "007",
    "10.",
    "1,5",
    "10 000",
  ),
);
const sign = fc.constantFrom("", "", "", "", "-", "+", "−", "- ");
const number = fc.tuple(sign, digits).map(([a, b]) => a + b);
const name = fc.constantFrom(...unitNames);
const common = fc.constantFrom(
  "V",
  "kΩ",
  "µF",
  "uF",
  "%",
  "ppm",
  "°C",
  "K",
  "dB",
  "dBm",
  "dB SPL",
  "mm",
  "in",
  "min",
  "m",
  "s",
  "1/s",
  "AWG",
  "t",
  "Hz",
  "N·m",
  "J",
  "Δ°C",
  "dB (power)",
  "kb",
  "M",
  "foo",
);
const exponent = fc.constantFrom("", "", "", "²", "^2", "2", "3", "^-1", "⁻¹", "^0.5", "^(1/2)", "^(-3/2)", "^0", "^13", "⁻⁰", "^½", "^(2");
export const factor = fc.oneof(
  fc.tuple(fc.oneof(common, name), exponent).map(([a, b]) => a + b),
  fc.oneof(common, name).map((a) => `√${a}`),
  fc.oneof(common, name).map((a) => `sqrt(${a})`),
);
export const joint = fc.constantFrom("/", "·", "*", " / ", "·", "/(", " ", "//");
export const unit = fc.oneof(
  { weight: 5, arbitrary: common },
  { weight: 3, arbitrary: name },
  { weight: 2, arbitrary: fc.tuple(factor, joint, factor).map(([a, j, b]) => a + j + b + (j.endsWith("(") ? ")" : "")) },
  fc.tuple(factor, factor, factor).map(([a, b, c]) => `${a}/(${b}·${c})`),
);
const gap = fc.constantFrom("", " ", " ", " ", "\u00a0", "  ");
const letterCode = fc
  .tuple(
    fc.constantFrom("", "1", "4", "10", "100"),
    fc.constantFrom("R", "k", "K", "M", "G", "T", "p", "n", "µ", "u", "m", "V"),
    fc.constantFrom("", "7", "47", "0"),
  )
  .map((parts) => parts.join(""));
const bare = fc.tuple(number, gap, unit).map((parts) => parts.join(""));
const value = fc.oneof(
  { weight: 6, arbitrary: bare },
  { weight: 2, arbitrary: number },
  letterCode,
  fc.tuple(letterCode, gap, fc.constantFrom("Ω", "F", "H", "V", "kΩ", "ohm")).map((parts) => parts.join("")),
  fc.tuple(digits, fc.integer({ min: 0, max: 99 }), gap, unit).map(([a, b, g, u]) => `${a}(${b})${g}${u}`),
);
const pm = fc.constantFrom("±", " ± ", " ±", " +/- ", " +-", "+/-");
const tail = fc.constantFrom(
  "",
  "",
  "",
  "",
  " (3σ)",
  " (2 sigma)",
  " (triangular)",
  " (rectangular)",
  " (±3σ)",
  "(1.5σ)",
  " (0σ)",
  " foo",
  " ν 9",
  " (2σ) ν 4.5",
  " dof 3",
  " ν 0.5",
  "ν 2",
);
const between = fc.constantFrom(" to ", "…", "..", "...", "–", " – ", "to", "-");
const text = fc.oneof(
  value,
  fc
    .tuple(value, pm, fc.oneof(bare, digits, fc.tuple(digits, gap, fc.constantFrom("%", "ppm", "dB"))), tail)
    .map(([a, b, c, d]) => a + b + (Array.isArray(c) ? c.join("") : c) + d),
  fc
    .tuple(value, gap, fc.constantFrom("+", "-"), value, fc.constantFrom("/", " / "), fc.constantFrom("-", "+", ""), value)
    .map((parts) => parts.join("")),
  fc.tuple(value, between, value).map((parts) => parts.join("")),
  fc.tuple(value, fc.constantFrom(" in ", "in"), value, between, value).map((parts) => parts.join("")),
  fc
    .tuple(value, fc.constantFrom(" (", "("), value, between, value, fc.constantFrom(")", ", triangular)", ", rectangular)", ") V", ""))
    .map((parts) => parts.join("")),
  fc.tuple(value, fc.constantFrom(" σ ", "σ", " sigma "), value).map((parts) => parts.join("")),
  fc
    .tuple(fc.constantFrom("(", "( "), number, fc.oneof(pm, between), number, fc.constantFrom(")", ") "), unit, tail)
    .map((parts) => parts.join("")),
  fc.tuple(pm, value, tail).map((parts) => parts.join("")),
  fc.tuple(value, fc.constantFrom(" σ ", " σ"), bare, fc.constantFrom(" ν 18", " ν5", " dof 2.5", " nu 3")).map((parts) => parts.join("")),
  fc.tuple(digits, fc.constantFrom("(2)", "(15)"), gap, unit, fc.constantFrom("", " ν 12", " dof 3")).map((parts) => parts.join("")),
  fc
    .tuple(value, fc.constantFrom(" ×/÷ ", " ×/÷", "×/÷"), fc.oneof(digits, fc.constantFrom("1.5", "2", "3", "-2")), tail)
    .map((parts) => parts.join("")),
  fc
    .tuple(
      fc.oneof(
        { weight: 3, arbitrary: fc.constant("") },
        value.map((v) => `${v}, `),
        fc.constantFrom("2 kΩ, ", "1 V, "),
      ),
      fc.constantFrom("one of ", "one of ", "one of", "oneof "),
      fc.uniqueArray(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 4 }),
      fc.constantFrom("V", "kΩ", "dB", "°C", "%", "in", "", "AWG", "N·m"),
      fc.constantFrom("A U", "A", "A U (S %)", "A (S %)", "A U (50 %)", "A.5 U"),
      fc.constantFrom(", ", ",", " , ", "; "),
      fc.boolean(),
    )
    .map(([before, words, ns, u, item, comma, last]) => {
      const one = (n: number, i: number) =>
        item
          .replace("U", i === ns.length - 1 || !last ? u : "")
          .replace("A", String(n))
          .replace("S", String(Number((100 / ns.length).toFixed(1))));
      return before + words + ns.map(one).join(comma);
    }),
  fc
    .tuple(
      fc.shuffledSubarray(["min", "typ", "max"], { minLength: 2 }),
      fc.array(value, { minLength: 3, maxLength: 3 }),
      fc.constantFrom(", ", " ", "; ", ","),
    )
    .map(([words, values, comma]) => words.map((w, i) => `${w} ${values[i]}`).join(comma)),
  fc
    .tuple(
      fc.integer({ min: 1, max: 9 }),
      fc.integer({ min: 1, max: 9 }),
      fc.integer({ min: 0, max: 9 }),
      fc.constantFrom("V", "mm", "dB", "°C", "%", "in", "min", "t"),
      fc.constantFrom(
        "A in 0A to 9A",
        "C (BU to 9U)",
        "BU (BU to BU)",
        "BU +AU/-CU",
        "B U +A/-C",
        "B U +A/-C U",
        "B U in -AU to CU",
        "B U in -A to C U",
        "min 0U, typ A, max 9 U",
        "0…A U",
        "(A ± C) U",
        "A ± BU (3σ)",
      ),
    )
    .map(([a, b, c, u, shape]) => shape.replace(/[ABCU]/g, (l) => ({ A: String(a), B: String(b), C: String(c), U: u })[l] as string)),
);
/** One character dropped, doubled, or changed for one of the grammar or any at all. */
export const mutated = fc
  .tuple(
    text,
    fc.nat(),
    fc.constantFrom("drop", "double", "change"),
    fc.oneof(
      fc.constantFrom(..."0123456789.,+-±/()^·*√²⁻¹½eE×xµΩ°%σ kMmnRVin to…–;"),
      fc.string({ unit: "binary", minLength: 1, maxLength: 1 }),
    ),
  )
  .map(([s, n, how, c]) => {
    const all = [...s];
    const at = all.length === 0 ? 0 : n % all.length;
    all.splice(at, how === "double" ? 0 : 1, ...(how === "drop" ? [] : how === "double" ? [all[at] ?? ""] : [c]));
    return all.join("");
  });
export const anyText = fc.oneof(
  { weight: 5, arbitrary: text },
  { weight: 4, arbitrary: mutated },
  { weight: 1, arbitrary: fc.string({ unit: "binary", maxLength: 24 }) },
);
