/** The same laws applied to several things, shown as one table. */
import { typeset } from "../formula/typeset";
import { modelNamed } from "../graph/model";
import type { GraphNode, NodeId } from "../graph/node";
import { Quantity } from "../quantity/quantity";
import { expectResults, type Results } from "./alternatives";
import type { TableBlock } from "./block";
import type { AnyQuantity, Session } from "./session";
import { sharedBeginning } from "./shared-meaning";

export type Members = Readonly<Record<string, unknown>>;
/** The results of each member, under its own key. */
export type EachOf<L extends Members, R> = { readonly [K in keyof L]: R };

type Row = Readonly<Record<string, AnyQuantity>>;

/** Evaluates each member under names of its own; with a caption, shows the quantities that come out. */
export function each<L extends Members, R extends Results>(
  session: Session,
  name: string,
  members: L,
  evaluate: (member: L[keyof L], name: string) => R,
  caption?: string,
): EachOf<L, R> {
  const entries = Object.entries(members as Readonly<Record<string, L[keyof L]>>).map(
    ([key, member]) =>
      [key, session.within(`${name}[${key}]`, () => expectResults(session, `${name}[${key}]`, evaluate(member, key)))] as const,
  );
  if (caption !== undefined) table(session, caption, Object.fromEntries(entries.map(([key, result]) => [key, quantitiesOf(result)])));
  return Object.fromEntries(entries) as EachOf<L, R>;
}

/** Shows rows of quantities. Every row has the columns of the first. */
export function table(session: Session, caption: string, rows: Readonly<Record<string, Row>>): void {
  const [first] = Object.values(rows);
  if (first === undefined) throw session.error("worksheet", `table "${caption}" has no rows`);
  const keys = Object.keys(first);
  const cellsOf = (row: Row, label: string): NodeId[] =>
    keys.map((key) => {
      const quantity = row[key];
      if (quantity === undefined) throw session.error("worksheet", `table "${caption}": row ${label} has no ${key}`);
      return session.enter(quantity);
    });
  const body = Object.entries(rows).map(([label, row]) => ({ label, cells: cellsOf(row, label) }));
  const nodes = (body[0]?.cells ?? []).map((id) => session.node(id));
  const block: TableBlock = {
    type: "table",
    caption,
    laws: nodes.flatMap((node) => lawOf(session, node)),
    columns: keys.map((key, i) =>
      heading(
        key,
        body.map(({ cells }) => session.node(cells[i] as NodeId)),
      ),
    ),
    rows: body,
  };
  session.show(
    block,
    body.flatMap(({ cells }) => cells.map((id) => session.evaluation.analysis(id))),
  );
}

/** What the rows of a column have in common: symbol and meaning where they share them, else the name under which the cell hands them on. */
function heading(key: string, column: readonly GraphNode[]): TableBlock["columns"][number] {
  const [symbol, ...others] = new Set(column.map((node) => node.symbol));
  const meaning = sharedBeginning(column.map((node) => node.meaning));
  return { symbol: others.length === 0 ? (symbol ?? key) : key, meaning: meaning ?? "" };
}

/** The law behind a column; of a decided result, that of the first alternative. */
function lawOf(session: Session, node: GraphNode): TableBlock["laws"] {
  const symbol = node.symbol ?? "";
  if (node.kind === "switch")
    return Object.values(node.cases)
      .slice(0, 1)
      .flatMap((id) => lawOf(session, session.node(id)));
  if (node.kind === "formula")
    return [{ symbol, law: typeset(node.expression), ...(node.source === undefined ? {} : { source: node.source }) }];
  if (node.kind === "model") {
    const { meaning, source } = modelNamed(node.model);
    return [{ symbol, model: meaning, source }];
  }
  return [];
}

const quantitiesOf = (results: Results): Row =>
  Object.fromEntries(Object.entries(results).filter((entry): entry is [string, AnyQuantity] => entry[1] instanceof Quantity));
