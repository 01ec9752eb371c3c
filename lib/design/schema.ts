/**
 * The shape of a design file as JSON Schema 2020-12, for editors: they complete keys and mark slips while one types.
 * It knows less than the reader, which also reads units, sources and tables; what the reader accepts, it accepts.
 */
import type { designKeys } from "./read";
import { judgedWords } from "./requirement";
import { cslFields, cslTypes } from "./source";
import { spreadWords } from "./spread-kinds";
import { interpolations } from "./table";

type Schema = Readonly<Record<string, unknown>>;

const name = { pattern: "^\\p{L}[\\p{L}\\p{N}_-]*$" };
const reference = (definition: string): Schema => ({ $ref: `#/$defs/${definition}` });
const text = (description: string): Schema => ({ type: "string", minLength: 1, description });
const object = (description: string, properties: Schema, required: readonly string[]): Schema => ({
  type: "object",
  description,
  properties,
  required,
  additionalProperties: false,
});
const named = (description: string, definition: string): Schema => ({
  type: "object",
  description,
  propertyNames: name,
  additionalProperties: reference(definition),
});

/** The schema as it is committed in data/design.schema.json. */
export function designSchema(): Schema {
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    title: "Design file",
    description:
      "Every given of a product with its tolerance or range, source and meaning; its requirements; the decisions taken; readings of prototypes.",
    type: "object",
    properties: sections(),
    required: ["product"],
    additionalProperties: false,
    $defs: definitions(),
  };
}

function sections(): Record<(typeof designKeys)[number], Schema> {
  return {
    product: object(
      "What the file describes.",
      {
        name: text("Name of the product."),
        title: text("What it is, in a line."),
        revision: text("Revision of this file, in quotes."),
        note: text("Anything a reader should know first."),
      },
      ["name", "revision"],
    ),
    sources: {
      type: "object",
      description: "Sources by a short key, in the fields of CSL-JSON.",
      additionalProperties: reference("source"),
    },
    requirements: named("Requirements by id.", "requirement"),
    decisions: {
      type: "object",
      description: "Decisions taken: worksheet, then name of the decision.",
      propertyNames: name,
      additionalProperties: named("Decisions of one worksheet.", "decision"),
    },
    givens: reference("group"),
    correlations: { type: "array", description: "Pairs of givens that vary together.", items: reference("correlation") },
    blocks: named("Blocks of the product, for the block diagram and the power tree.", "block"),
    common: named("Causes that several givens have in common, by name: one reel, one lot, ageing alike.", "common"),
    readings: named("Values measured on prototypes.", "reading"),
  };
}

function definitions(): Record<string, Schema> {
  return {
    source: source(),
    requirement: requirement(),
    decision: decision(),
    reading: reading(),
    correlation: correlation(),
    common: common(),
    block: block(),
    group: group(),
    given: given(),
    table: table(),
    quantity: quantity(),
  };
}

function source(): Schema {
  const fields = Object.fromEntries(cslFields.map((field) => [field, {}]));
  return object(
    "A source in the fields of CSL-JSON.",
    { ...fields, type: { enum: cslTypes }, title: text("Title, or what it is in a few words.") },
    ["type", "title"],
  );
}

function requirement(): Schema {
  return object(
    "One requirement.",
    {
      statement: text("The sentence that the product must meet."),
      limit: {
        anyOf: [{ type: "string", minLength: 1 }, { type: "number" }],
        description: 'The limit: "<= 1.3", ">= 12 h", 14 dB ±0.3 dB, 60 kHz to 200 kHz. Quote text that begins with >.',
      },
      judged: {
        enum: judgedWords,
        description:
          "worst case: every unit under every condition; 95 %: 95 units of 100 at the worst condition; typical: the nominal value.",
      },
      where: text("Conditions, and the worksheet that shows it."),
      source: text("A key of sources."),
      note: text("Why it is worded so."),
    },
    ["statement", "limit", "judged"],
  );
}

function decision(): Schema {
  return object(
    "One decision.",
    {
      chosen: text("Name of the alternative chosen; the worksheet knows the alternatives."),
      reason: text("Why this one was chosen. Markdown."),
      reconsider: text("What would change our mind. Markdown."),
    },
    ["chosen", "reason", "reconsider"],
  );
}

function reading(): Schema {
  return object(
    "A value measured on a prototype.",
    {
      result: text("The result that it tests, as sheet.name."),
      value: reference("quantity"),
      specimen: text("Which prototype."),
      source: text("A key of sources."),
      note: text("How it was measured."),
    },
    ["result", "value", "source"],
  );
}

const paths = (description: string): Schema => ({ type: "array", items: text("Path of a given with a tolerance."), description });

function correlation(): Schema {
  return object(
    "The correlation of two givens; a pair that is not listed has none. The worst case leaves it out unless it is 1 or -1. Further parts of a path are other specimens, to which it does not reach.",
    {
      between: { ...paths("The two givens."), minItems: 2, maxItems: 2 },
      coefficient: { type: "number", minimum: -1, maximum: 1, description: "Correlation coefficient of their values (JCGM 100 5.2.2)." },
      source: text("A key of sources."),
      note: text("How it was found."),
    },
    ["between", "coefficient", "source"],
  );
}

function block(): Schema {
  const names = (description: string): Schema => ({
    anyOf: [
      { type: "string", minLength: 1 },
      { type: "array", items: { type: "string", minLength: 1 } },
    ],
    description,
  });
  return object(
    "What the product consists of, and what it gets from which other block.",
    {
      name: text("What it is called."),
      does: text("What it does, in a few words."),
      signal: names("Blocks that it gets its signal from."),
      power: names("Blocks that it is fed by."),
      return: names("The block that its current goes back through."),
      voltage: text("What it hands on: a given by its path, or a result as sheet.name."),
      efficiency: text("How much of the power it hands on: a given or a result."),
      loses: text("Power that it turns into heat: a given or a result."),
      draws: text("Power or current that it takes: a given or a result."),
      note: text("Said beside its figures in the power tree: where they are counted."),
    },
    ["name", "does"],
  );
}

function common(): Schema {
  return object(
    "A cause that several givens, and all parts of each, have in common: any two are correlated by the share.",
    {
      paths: { ...paths("The givens."), minItems: 1 },
      share: {
        type: "number",
        minimum: 0,
        maximum: 1,
        description: "Share of the variance of each that is common: the correlation of any two.",
      },
      reason: text("Why they vary alike."),
      source: text("A key of sources."),
      note: text("Doubts."),
    },
    ["paths", "share", "reason", "source"],
  );
}

// A mapping with a value, a table or a reference is a given; any other holds further givens.
function group(): Schema {
  return {
    type: "object",
    description: "Givens, nested as deep as their names need. The dotted keys are the path by which worksheets ask.",
    propertyNames: name,
    additionalProperties: {
      if: { anyOf: ["value", "table", "reference"].map((key) => ({ type: "object", required: [key] })) },
      // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
      then: reference("given"),
      else: reference("group"),
    },
  };
}

function given(): Schema {
  return {
    ...object(
      "A given: a value, a table or a reference table, with its meaning and source.",
      {
        value: reference("quantity"),
        table: reference("table"),
        reference: text("A reference table or row: luminosity, constants.k."),
        spread: {
          enum: spreadWords,
          description:
            "What the tolerance says. production (default): units differ from one another. knowledge: one true value that nobody has measured, the same in every unit.",
        },
        doubt: {
          anyOf: [{ type: "string", minLength: 1 }, { type: "number" }],
          description: "What is not known beside a tolerance of production: ±8 %; (72 to 82 %); ×/÷1.3. The two add.",
        },
        meaning: text("What it is, in words."),
        symbol: text("Its symbol in formulas: V_f."),
        source: text("A key of sources."),
        note: text("Conditions and doubts. Plain text."),
        memory: { type: "boolean", description: "true where the value was not looked up for this design." },
        step: {
          anyOf: [{ type: "string", minLength: 1 }, { type: "number" }],
          description:
            "How far a sensitivity moves it to either side: 5 °C, 1 dB. Without one: 10 %, 10 K, 1 dB, or a range from end to end.",
        },
      },
      [],
    ),
    oneOf: [{ required: ["value", "meaning", "source"] }, { required: ["table", "meaning", "source"] }, { required: ["reference"] }],
  };
}

function table(): Schema {
  const cells = { type: "array", items: { type: "number" }, minItems: 2, maxItems: 2 };
  const rows = object(
    "Rows of two bare numbers, in the units of the column heads; here or in a CSV file.",
    {
      columns: {
        type: "array",
        items: text("Name and unit: forward voltage in V. Without a unit: relative intensity."),
        minItems: 2,
        maxItems: 2,
        description: "Heads of the abscissa and the ordinate.",
      },
      interpolation: {
        enum: interpolations,
        description:
          "Between rows: linear; log-y: ln y against x; log-log; monotone: a smooth cubic without overshoot. Outside the rows is an error.",
      },
      csv: text("A CSV file with a head row and two columns, its path from the folder of this file."),
      rows: { type: "array", items: cells, minItems: 2, description: "One row a line, the first column increasing strictly." },
    },
    ["interpolation"],
  );
  return { ...rows, oneOf: [{ required: ["columns", "rows"] }, { required: ["csv"] }] };
}

function quantity(): Schema {
  return {
    anyOf: [{ type: "string", minLength: 1 }, { type: "number" }],
    description:
      "A number with its unit and spread: 4.5 V ±2 %; 2.85 V ±0.12 V (3σ); 2.8 mA (2.4 to 3.3 mA); 10 nA ×/÷ 3 (2σ); 50.0006 mm σ 25 nm ν 18; one of 1 kΩ, 2 kΩ; 25 °C in 5 °C to 35 °C; ±1 %. A bare number is dimensionless.",
  };
}
