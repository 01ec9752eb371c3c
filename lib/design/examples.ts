/**
 * Worked examples of formulas and models: arguments and results as datasheet text, each with where the expected value comes from.
 *
 *     name: audio
 *     symbols: { R_s: resistance of the source }          what symbols mean in all laws of the subject
 *     laws:
 *       inputLoading:
 *         symbols: { k: share of the voltage }            where a law means something else by one
 *         examples:
 *           - with: { R_i: 9 kΩ, R_s: 1 kΩ }              a table: 0 % → 3.0 V, 100 % → 4.2 V (log-y)
 *             gives: -0.915 dB                            of a model: { I: 2.10 mA, V_f: 1.95 V }, of a curve: 2.10 mA at 3 V
 *             from: "by hand: 20·lg(9/10)"
 *
 * A result is right to half of its last digit. Reading the files is the caller's: this floor sees their text.
 */
import { isScalar, isSeq, type Node, type YAMLMap } from "yaml";
import { Fields, mapOf, textOf } from "./fields";
import { LocatedFile, start } from "./locate";

/** A text of an examples file, and where it stands: `data/examples/audio.yaml:12:21`. */
export interface Placed {
  readonly text: string;
  readonly place: string;
}

export interface Example {
  readonly arguments: Readonly<Record<string, Placed>>;
  /** By output; a formula's one result has the empty name. */
  readonly results: Readonly<Record<string, Placed>>;
  readonly from: string;
  readonly place: string;
}

export interface LawExamples {
  readonly place: string;
  readonly symbols: Readonly<Record<string, string>>;
  readonly examples: readonly Example[];
}

export interface SubjectExamples {
  readonly name: string;
  readonly fileName: string;
  readonly symbols: Readonly<Record<string, string>>;
  readonly laws: ReadonlyMap<string, LawExamples>;
}

/** Throws WorkingsError `design` that lists everything wrong in the first faulty file, with line and column. */
export function readExamples(files: Readonly<Record<string, string>>): readonly SubjectExamples[] {
  return Object.entries(files).map(([fileName, text]) => {
    const file = new LocatedFile(text, fileName);
    const subject = readSubject(file);
    file.throwProblems();
    return subject;
  });
}

function readSubject(file: LocatedFile): SubjectExamples {
  const fields = new Fields(file, file.top, ["name", "symbols", "laws"], "the examples file");
  const name = fields.requiredText("name", "write the subject, as in workings/physics") ?? "";
  const node = fields.node("laws");
  if (!node) fields.missing("laws", "write the examples under the names of formulas and models");
  const map = node && mapOf(file, node, "laws", "one key for each formula or model");
  const laws = (map ? file.entries(map) : []).flatMap(({ key, at, value }): [string, LawExamples][] => {
    const law = mapOf(file, value, `the examples of ${key}`, "keys examples and symbols");
    return law ? [[key, readLaw(file, law, key, file.place(at))]] : [];
  });
  return { name, fileName: file.fileName, symbols: words(file, fields.node("symbols"), "symbols"), laws: new Map(laws) };
}

function readLaw(file: LocatedFile, map: YAMLMap, name: string, place: string): LawExamples {
  const fields = new Fields(file, map, ["symbols", "examples"], name);
  const node = fields.node("examples");
  if (node && !isSeq(node)) file.report(node, `examples of ${name} is no list`, "a list", "begin each example with '- with:'");
  const items = node && isSeq(node) ? (node.items as Node[]) : [];
  const examples = items.flatMap((item) => readExample(file, item, name) ?? []);
  return { place, symbols: words(file, fields.node("symbols"), `symbols of ${name}`), examples };
}

function readExample(file: LocatedFile, node: Node, name: string): Example | undefined {
  const map = mapOf(file, node, `an example of ${name}`, "keys with, gives and from");
  if (!map) return undefined;
  const fields = new Fields(file, map, ["with", "gives", "from"], `an example of ${name}`);
  const [given, gives] = [fields.node("with"), fields.node("gives")];
  if (!given) fields.missing("with", "write the arguments by their symbols");
  if (!gives) fields.missing("gives", "write the expected result, with the digits that it is good to");
  const from = fields.requiredText("from", "write where the expected value comes from; never from running this library");
  if (!given || !gives || from === undefined) return undefined;
  const results = isScalar(gives) ? { "": placed(file, gives, `the result of ${name}`) } : texts(file, gives, `the results of ${name}`);
  return { arguments: texts(file, given, `the arguments of ${name}`), results, from, place: file.place(start(node)) };
}

function texts(file: LocatedFile, node: Node, what: string): Record<string, Placed> {
  const map = mapOf(file, node, what, "a text for each symbol");
  return Object.fromEntries((map ? file.entries(map) : []).map(({ key, value }) => [key, placed(file, value, `${key} of ${what}`)]));
}

/** A number stands as the file writes it: 1.50 has three digits. */
function placed(file: LocatedFile, node: Node, what: string): Placed {
  const place = file.place(start(node));
  if (isScalar(node) && typeof node.value === "number") return { text: node.source ?? String(node.value), place };
  return { text: textOf(file, node, what) ?? "", place };
}

function words(file: LocatedFile, node: Node | undefined, what: string): Record<string, string> {
  const map = node && mapOf(file, node, what, "words for each symbol");
  return Object.fromEntries((map ? file.entries(map) : []).map(({ key, value }) => [key, textOf(file, value, `${key} of ${what}`) ?? ""]));
}
