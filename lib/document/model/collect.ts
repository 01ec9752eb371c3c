/** Reads notebooks as untrusted data: what of them the document uses, checked, in reading order. */
import type { GraphNode, NodeId } from "../../graph/node";
import { type Block, type Display, displayType } from "../../sheet/block";
import { checkedDisplay } from "./display-shape";

/** A notebook as nbformat 4.5 stores it; only what is read here. Anything may be missing or wrong. */
export interface NotebookData {
  readonly cells?: unknown;
}

export interface SheetInput {
  readonly name: string;
  readonly notebook: NotebookData;
  /** Reads a picture beside the notebook; without it only attachments are shown. */
  readonly picture?: (path: string) => Uint8Array;
}

export type Piece =
  | { readonly kind: "prose"; readonly markdown: string; readonly cell: string; readonly attachments: unknown }
  | { readonly kind: "code"; readonly source: string; readonly outputs: readonly Output[] };

export type Output =
  | { readonly kind: "display"; readonly ref: string; readonly display: Display }
  | { readonly kind: "text"; readonly text: string; readonly error: boolean }
  | { readonly kind: "image"; readonly png: string };

export interface Sheet {
  readonly name: string;
  readonly pieces: readonly Piece[];
  readonly picture?: SheetInput["picture"];
}

/** The pieces of a worksheet: Markdown cells, code cells with those outputs that a document shows. */
export function collectSheet({ name, notebook, picture }: SheetInput): Sheet {
  let count = 0;
  const reference = () => `${name}/${count++}`;
  return { name, pieces: list(notebook.cells).flatMap((cell) => pieces(record(cell), reference)), ...(picture && { picture }) };
}

function pieces(cell: Fields, reference: () => string): Piece[] {
  const source = text(cell.source);
  if (cell.cell_type === "markdown") return [{ kind: "prose", markdown: source, cell: text(cell.id), attachments: cell.attachments }];
  if (cell.cell_type !== "code") return [];
  return [{ kind: "code", source, outputs: list(cell.outputs).flatMap((output) => outputs(record(output), reference)) }];
}

function outputs(output: Fields, reference: () => string): Output[] {
  if (output.output_type === "stream") return [{ kind: "text", text: text(output.text), error: output.name === "stderr" }];
  if (output.output_type === "error") return [{ kind: "text", text: `${text(output.ename)}: ${text(output.evalue)}`, error: true }];
  const data = record(output.data);
  const own = data[displayType];
  if (own !== undefined) {
    const ref = reference();
    return [{ kind: "display", ref, display: checkedDisplay(own, ref) }];
  }
  const png = text(data["image/png"]).replace(/\s/g, "");
  if (/^[A-Za-z0-9+/]+=*$/.test(png)) return [{ kind: "image", png }];
  const plain = text(data["text/plain"]);
  return plain ? [{ kind: "text", text: plain, error: false }] : [];
}

/** Every display of a sheet, with its reference. */
export function displays(sheet: Sheet): { readonly ref: string; readonly display: Display }[] {
  return sheet.pieces.flatMap((piece) =>
    piece.kind === "code" ? piece.outputs.flatMap((output) => (output.kind === "display" ? [output] : [])) : [],
  );
}

/** The blocks of all sheets by reference. */
export function allBlocks(sheets: readonly Sheet[]): Record<string, Block> {
  return Object.fromEntries(sheets.flatMap(displays).map(({ ref, display }) => [ref, display.block]));
}

/** The union of all nodes, first mention first. A later mention of the same id is the same node. */
export function allNodes(sheets: readonly Sheet[]): GraphNode[] {
  const nodes = new Map<NodeId, GraphNode>();
  for (const { display } of sheets.flatMap(displays)) {
    for (const node of display.nodes) if (!nodes.has(node.id)) nodes.set(node.id, node);
  }
  return [...nodes.values()];
}

type Fields = Readonly<Record<string, unknown>>;

function record(value: unknown): Fields {
  return typeof value === "object" && value !== null ? (value as Fields) : {};
}

function list(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

/** nbformat stores text as one string or as a list of lines. */
function text(value: unknown): string {
  if (Array.isArray(value)) return value.filter((line) => typeof line === "string").join("");
  return typeof value === "string" ? value : "";
}
