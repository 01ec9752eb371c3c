import { describe, expect, it } from "vitest";
import { failure, sound, spoil } from "./fixture";

/** What is replaced, by what, and the whole or the beginning of the message. */
const rows: readonly (readonly [title: string, from: string, to: string, message: string])[] = [
  ["malformed YAML", "value: 4.5 V ±2 %", "value: [4.5", "d.yaml:23:7: malformed YAML: "],
  ["text that YAML reads as something else", '"<= 1.3"', ">= 1.3", "d.yaml:11:13: malformed YAML: "],
  [
    "a duplicate key",
    "meaning: the high rail",
    "meaning: a\n      meaning: b",
    "d.yaml:24:7: the key 'meaning' stands here a second time; expected each key once in a mapping; rename or delete one of the two",
  ],
  ["a duplicate given", "  lamp:\n    iv:", "  rails:\n    iv:", "d.yaml:28:3: the key 'rails' stands here a second time"],
  [
    "an unknown key of a given",
    "symbol: V_h",
    "symbl: V_h",
    "d.yaml:24:7: unknown key 'symbl' in given 'rails.high'; expected 'value', 'table', 'reference', 'spread', 'doubt', 'meaning', 'symbol', 'source', 'note', 'memory' or 'step'; did you mean 'symbol'?",
  ],
  [
    "an unknown key at the top",
    "readings:",
    "reading:",
    "d.yaml:39:1: unknown key 'reading' in the design file; expected 'product', 'sources', 'requirements', 'decisions', 'givens', 'correlations', 'common', 'blocks', 'states', 'readings' or 'batches'; did you mean 'readings'?",
  ],
  [
    "an unknown key that resembles none",
    "symbol: V_h",
    "colour: red",
    "d.yaml:24:7: unknown key 'colour' in given 'rails.high'; expected 'value', 'table', 'reference', 'spread', 'doubt', 'meaning', 'symbol', 'source', 'note', 'memory' or 'step'; delete it, or move it to a comment",
  ],
  [
    "a missing value",
    "      value: 4.5 V ±2 %\n",
    "",
    "d.yaml:22:7: given 'rails.high' has no value; expected a key 'value'; write it: a number with its unit, or a table",
  ],
  [
    "an empty value",
    "value: 4.5 V ±2 %",
    "value:",
    "d.yaml:22:13: value of given 'rails.high' is missing; expected a number, a unit and perhaps a tolerance, such as 4.5 V ±2 %; write it after the colon",
  ],
  ["a misspelt value, once", "value: 4.5 V", "valeu: 4.5 V", "d.yaml:22:7: unknown key 'valeu' in given 'rails.high'"],
  [
    "a given that is a bare value",
    "    high:\n      value: 4.5 V ±2 %\n",
    "    low: 3 V\n    high:\n      value: 4.5 V\n",
    "d.yaml:21:10: the given 'rails.low' is a bare value; expected keys value, meaning and source; write low: with value:, meaning: and source: under it",
  ],
  [
    "a missing source",
    "      source: own\n      note",
    "      note",
    "d.yaml:22:7: given 'rails.high' has no source; expected a key 'source'; write where the value comes from: a key of sources",
  ],
  [
    "an unknown source",
    "source: own\n      note",
    "source: onw\n      note",
    "d.yaml:25:15: unknown source 'onw' of given 'rails.high'; expected a key of sources; did you mean 'own'?",
  ],
  [
    "a missing meaning",
    "      meaning: the high rail\n",
    "",
    "d.yaml:22:7: given 'rails.high' has no meaning; expected a key 'meaning'; say in words what it is",
  ],
  [
    "a meaning that is not text",
    "meaning: the high rail",
    "meaning: 5",
    "d.yaml:23:16: meaning of given 'rails.high' is 5, not text; expected text; put it in quotes",
  ],
  [
    "an unknown unit",
    "4.5 V ±2 %",
    "4.5 Vlt",
    `d.yaml:22:18: value of given 'rails.high': cannot read "4.5 Vlt": unknown unit "Vlt"; did you mean`,
  ],
  [
    "an unknown unit in quotes",
    "4.5 V ±2 %",
    '"4.5 Vlt"',
    `d.yaml:22:19: value of given 'rails.high': cannot read "4.5 Vlt": unknown unit "Vlt"; did you mean`,
  ],
  [
    "a spread of another dimension",
    "4.5 V ±2 %",
    "4.5 V ±2 A",
    `d.yaml:22:21: value of given 'rails.high': cannot read "4.5 V ±2 A": the tolerance is A (current), the value V (voltage); expected a number`,
  ],
  [
    "a minimum above the maximum",
    "4.5 V ±2 %",
    "4.5 V (4.9 to 4.1 V)",
    `d.yaml:22:28: value of given 'rails.high': cannot read "4.5 V (4.9 to 4.1 V)": the limits are the wrong way round: 4.9 is above 4.1; expected a number`,
  ],
  [
    "a range that runs backwards",
    "4.5 V ±2 %",
    "4.9 V to 4.1 V",
    `d.yaml:22:23: value of given 'rails.high': cannot read "4.9 V to 4.1 V": the limits are the wrong way round: 4.9 is above 4.1; expected a number`,
  ],
  [
    "not a number",
    "4.5 V ±2 %",
    ".nan",
    "d.yaml:22:14: value of given 'rails.high' is '.nan', which is no finite number; expected a number, a unit and perhaps a tolerance, such as 4.5 V ±2 %; write the number, or leave the key out",
  ],
  [
    "infinity with a unit",
    "4.5 V ±2 %",
    "Infinity V",
    "d.yaml:22:14: value of given 'rails.high' is 'Infinity V', which is no finite number",
  ],
  ["a number too large", "4.5 V ±2 %", "1e999", "d.yaml:22:14: value of given 'rails.high' is '1e999', which is no finite number"],
  ["yes and no as a value", "4.5 V ±2 %", "true", "d.yaml:22:14: value of given 'rails.high' is true"],
  [
    "unsorted rows",
    "[1.9, 1]",
    "[1.7, 1]",
    "d.yaml:37:14: row 2 of the table of given 'lamp.iv': 1.7 follows 1.8; expected a first column that increases strictly; sort the rows and delete doubles",
  ],
  [
    "a ragged row",
    "[1.9, 1]",
    "[1.9, 1, 2]",
    "d.yaml:37:13: row 2 of the table of given 'lamp.iv' has 3 cells; expected 2 cells, one for each column; write [x, y]",
  ],
  [
    "a cell that is no number",
    "[1.9, 1]",
    "[1.9, 1 mA]",
    "d.yaml:37:19: row 2 of the table of given 'lamp.iv' holds '1 mA'; expected a finite number in the unit of the column head; write the bare number",
  ],
  ["an infinite cell", "[1.9, 1]", "[1.9, .inf]", "d.yaml:37:19: row 2 of the table of given 'lamp.iv' holds '.inf'"],
  [
    "a cell without a logarithm",
    "[1.8, 0.1]",
    "[1.8, 0]",
    "d.yaml:36:19: row 1 of the table of given 'lamp.iv': 0 has no logarithm; expected y > 0 for log-y; use linear or monotone",
  ],
  [
    "too many columns",
    "current in mA]",
    "current in mA, power in W]",
    "d.yaml:33:18: the table of given 'lamp.iv' has 3 columns; expected two column heads",
  ],
  [
    "an unknown unit in a column head",
    "current in mA",
    "current in mAx",
    `d.yaml:33:44: column 'current in mAx' of the table of given 'lamp.iv': cannot read the unit "mAx": unknown unit "mAx"; did you mean`,
  ],
  [
    "an unknown interpolation",
    "log-y",
    "logy",
    "d.yaml:34:24: unknown interpolation 'logy'; expected 'linear', 'log-y', 'log-log' or 'monotone'; did you mean 'log-y'?",
  ],
  [
    "a value beside a table",
    "      meaning: current",
    "      value: 2\n      meaning: current",
    "d.yaml:30:7: given 'lamp.iv' has value and table; expected one of value, table and reference; keep one",
  ],
  [
    "an unknown reference",
    "value: 4.5 V ±2 %",
    "reference: lum",
    "d.yaml:22:18: unknown reference 'lum' of given 'rails.high'; expected the path of a reference table or row; look into data/reference",
  ],
  [
    "a requirement without limit",
    '    limit: "<= 1.3"\n',
    "",
    "d.yaml:10:5: requirement 'led' has no limit; expected a key 'limit'; write a limit such as",
  ],
  ["a limit that limits nothing", '"<= 1.3"', '"1.3"', "d.yaml:11:12: limit of requirement 'led' '1.3' sets no limit"],
  [
    "a limit without equality",
    '"<= 1.3"',
    '"< 1.3"',
    'd.yaml:11:12: limit of requirement \'led\' begins with \'<\'; expected a limit such as "<= 1.3", ">= 12 h", "14 dB ±0.3 dB" or "60 kHz to 200 kHz"; write <=',
  ],
  [
    "a limit in an unknown unit",
    '"<= 1.3"',
    '"<= 1.3 Vlt"',
    `d.yaml:11:20: limit of requirement 'led': cannot read "1.3 Vlt": unknown unit "Vlt"; did you mean`,
  ],
  [
    "an unknown way to judge",
    "95 %",
    "wrost case",
    "d.yaml:12:13: unknown way to judge 'wrost case'; expected 'worst case', '95 %' or 'typical'; did you mean 'worst case'?",
  ],
  ["a requirement without a way to judge", "    judged: 95 %\n", "", "d.yaml:10:5: requirement 'led' has no judged"],
  [
    "a decision without a choice",
    "      chosen: high\n",
    "",
    "d.yaml:16:7: decision 'decisions.lamp.rail' has no chosen; expected a key 'chosen'; write the name of one alternative of the sheet",
  ],
  [
    "a decision with an empty reason",
    "reason: it is higher",
    "reason: ''",
    "d.yaml:17:15: reason of decision 'decisions.lamp.rail' is empty; expected text; write it, or delete the key",
  ],
  ["a source without a title", "    title: Made up for this test\n", "", "d.yaml:6:5: source 'own' has no title"],
  [
    "a source of unknown type",
    "type: document",
    "type: documnt",
    "d.yaml:6:11: unknown type 'documnt' of source 'own'; expected a CSL-JSON type; did you mean 'document'",
  ],
  [
    "a name that cannot be part of a path",
    "    high:",
    "    a.b:",
    "d.yaml:21:5: the name 'a.b' cannot be part of a path; expected letters, digits, - and _, beginning with a letter; rename it; write a.b as two levels",
  ],
  [
    "an alias",
    "meaning: the high rail",
    "meaning: &x a\n      symbol: *x",
    "d.yaml:24:15: an alias (*name) stands for a value; expected the value itself; write it out where it is used",
  ],
  ["a missing product", 'product:\n  name: Test\n  revision: "1"\n', "", "d.yaml:1:1: the design file has no product"],
  [
    "a revision that is a number",
    'revision: "1"',
    "revision: 1",
    "d.yaml:3:13: revision of product is 1, not text; expected text; put it in quotes",
  ],
  ["a reading without a result", "    result: lamp.I\n", "", "d.yaml:41:5: reading 'first' has no result"],
];

describe("an error in a design file says where, what, what was expected and what to do", () => {
  it.each(rows)("%s", (_title, from, to, message) => {
    expect(
      failure(spoil(from, to))
        .replace(/^d\.yaml has \d+ errors\n/, "")
        .slice(0, message.length),
    ).toBe(message);
  });

  it("reports nothing for the sound file", () => {
    expect(failure(sound)).toBe("read without error");
  });

  it("asks for keys where the file is empty or a list", () => {
    const message =
      "d.yaml:1:1: the file holds no mapping; expected keys such as product, sources and givens at the left margin; write 'key: value' lines";
    expect(failure("")).toContain(message);
    expect(failure("- a\n")).toContain(message);
  });

  it("reports an alias once", () => {
    expect(failure(spoil("meaning: the high rail", "meaning: &x a\n      symbol: *x")).match(/an alias/g)).toHaveLength(1);
  });
});
