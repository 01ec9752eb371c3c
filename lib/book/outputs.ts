/** Reads notebooks as untrusted data: what of them the book uses, checked, in reading order. */
import { expectWhole, type Stored, storedDisplay } from "../sheet/stored";

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
  | ({ readonly kind: "display"; readonly ref: string } & Stored)
  | { readonly kind: "text"; readonly text: string; readonly error: boolean }
  | { readonly kind: "image"; readonly png: string };

export interface SheetOutputs {
  readonly name: string;
  readonly pieces: readonly Piece[];
  /** Every display, with its reference: `indicators/4` is the fifth of that sheet. */
  readonly displays: readonly (Stored & { readonly ref: string })[];
  readonly picture?: SheetInput["picture"];
}

/**
 * The pieces of a worksheet: Markdown cells, code cells with those outputs that a document shows. Throws WorkingsError "notebook"
 * for an output that this library has not written, and for outputs that do not make one whole.
 */
export function readOutputs({ name, notebook, picture }: SheetInput): SheetOutputs {
  let displays = 0;
  let cells = 0;
  const read = (output: Fields, cell: number): Output[] => {
    const stored = storedDisplay(output, name, cell);
    return stored === undefined ? plain(output) : [{ kind: "display", ref: `${name}/${displays++}`, ...stored }];
  };
  const pieces = list(notebook.cells).flatMap((cell) =>
    piecesOf(
      record(cell),
      (output) => read(output, cells),
      () => cells++,
    ),
  );
  const shown = pieces.flatMap((piece) => (piece.kind === "code" ? piece.outputs : []));
  const found = shown.flatMap((output) => (output.kind === "display" ? [output] : []));
  expectWhole(found, name);
  return { name, pieces, displays: found, ...(picture && { picture }) };
}

function piecesOf(cell: Fields, read: (output: Fields) => Output[], begin: () => void): Piece[] {
  const source = text(cell.source);
  if (cell.cell_type === "markdown") return [{ kind: "prose", markdown: source, cell: text(cell.id), attachments: cell.attachments }];
  if (cell.cell_type !== "code") return [];
  begin();
  return [{ kind: "code", source, outputs: list(cell.outputs).flatMap((output) => read(record(output))) }];
}

/** What another program, or a cell itself, has shown. */
function plain(output: Fields): Output[] {
  if (output.output_type === "stream") return [{ kind: "text", text: text(output.text), error: output.name === "stderr" }];
  if (output.output_type === "error") return [{ kind: "text", text: `${text(output.ename)}: ${text(output.evalue)}`, error: true }];
  const data = record(output.data);
  const png = text(data["image/png"]).replace(/\s/g, "");
  if (/^[A-Za-z0-9+/]+=*$/.test(png)) return [{ kind: "image", png }];
  const plain = text(data["text/plain"]);
  return plain ? [{ kind: "text", text: plain, error: false }] : [];
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
