/** Whether a stored display has the shape that this library writes: outputs may have been edited or be of another version. */
import { WorkingsError } from "../../quantity/error";
import type { Block, Display } from "../../sheet/block";

type Fields = Readonly<Record<string, unknown>>;
type Shape = Readonly<Record<string, "text" | "list" | "fields">>;

/** What rendering reads of each type of block without looking. */
const shapes: Readonly<Record<Block["type"], Shape>> = {
  givens: { rows: "list" },
  result: { node: "text" },
  table: { caption: "text", laws: "list", columns: "list", rows: "list" },
  select: { node: "text", of: "text" },
  decision: { name: "text", question: "text", choice: "text", criteria: "list", alternatives: "list", reason: "text", reconsider: "text" },
  requirement: { requirement: "text", node: "text" },
  plot: { name: "text", caption: "text", x: "fields", y: "fields", series: "list" },
  drawing: { name: "text", caption: "text", drawing: "text", arguments: "fields" },
  caution: { subject: "text", text: "text" },
  contribution: { budget: "text", items: "list" },
  collection: { budget: "text", node: "text", items: "list" },
  assumption: { name: "text", node: "text" },
  confirmation: { of: "text", assumed: "text", node: "text" },
  taken: { rows: "list" },
  publish: { names: "fields" },
};

/** The display, if it is one. Throws "notebook" naming the output and what is wrong with it. */
export function checkedDisplay(value: unknown, place: string): Display {
  const { version, block, nodes } = fields(value);
  const refuse = (reason: string): never => {
    throw new WorkingsError("notebook", `${place}: this output ${reason}; run the worksheet again`, { place });
  };
  if (version !== 1) refuse(`is of version ${String(version)}, this library reads version 1`);
  const { type } = fields(block);
  if (typeof type !== "string" || !Object.hasOwn(shapes, type)) refuse(`is of a type that this library does not know`);
  for (const [key, kind] of Object.entries(shapes[type as Block["type"]])) {
    if (!matches(fields(block)[key], kind)) refuse(`(${String(type)}) has no proper '${key}'`);
  }
  if (!Array.isArray(nodes) || !nodes.every((node) => typeof fields(node).id === "string" && typeof fields(node).kind === "string"))
    refuse("holds no proper nodes");
  return value as Display;
}

function matches(value: unknown, kind: "text" | "list" | "fields"): boolean {
  if (kind === "text") return typeof value === "string";
  return kind === "list" ? Array.isArray(value) : typeof value === "object" && value !== null && !Array.isArray(value);
}

function fields(value: unknown): Fields {
  return typeof value === "object" && value !== null ? (value as Fields) : {};
}
