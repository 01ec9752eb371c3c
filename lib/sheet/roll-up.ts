/** Roll-ups of the book: sheets contribute items of mass, power or cost; one sheet collects them. */
import type { Expression } from "../formula/expression";
import type { NodeId } from "../graph/node";
import { assignable, dimension } from "../quantity/dimension";
import type { Dim } from "../quantity/dimension-types";
import type { Quantity, Unit } from "../quantity/quantity";
import type { CollectionBlock, ContributionBlock } from "./block";
import { bring, otherSheets } from "./other-sheets";
import type { AnyQuantity, Session } from "./session";

export interface CollectOptions {
  /** Symbol of the sum. */
  readonly name: string;
  readonly meaning: string;
}

/** Adds items to a roll-up. Calling it again for one roll-up adds more; each item has a label of its own. */
export function contribute(session: Session, budget: string, items: Readonly<Record<string, AnyQuantity>>): void {
  for (const [label, { unit }] of Object.entries(items)) {
    if (unit.log !== undefined)
      throw session.error("worksheet", `${label} is in ${unit.symbol}: a roll-up adds, and levels multiply; show it in a linear unit`);
  }
  const entries = Object.entries(items).map(([label, quantity]) => ({ label, node: session.enter(quantity) }));
  if (entries.length === 0) throw session.error("worksheet", `nothing is contributed to "${budget}"`);
  session.contribute(budget, entries);
  session.show(
    { type: "contribution", budget, items: entries },
    entries.map(({ node }) => session.evaluation.analysis(node)),
  );
}

/** The sum of what the sheets of the book, this one included, have contributed. Throws where there is nothing, or an item of another dimension. */
export function collect<D extends Dim>(
  session: Session,
  folder: string,
  budget: string,
  unit: Unit<D>,
  { name, meaning }: CollectOptions,
): Quantity<D> {
  const own = session.collect(budget).map(({ label, node }) => ({ label, node, sheet: session.sheet }));
  const others = otherSheets(session, folder, budget).flatMap((sheet) => {
    const contributions = sheet.displays.flatMap(({ block }) => (block.type === "contribution" ? [block] : []));
    return itemsOf(contributions, budget).map((item) => ({ ...item, node: bring(session, sheet, item.node), sheet: sheet.name }));
  });
  const items = [...others, ...own];
  if (items.length === 0) throw session.error("worksheet", `no sheet contributes to "${budget}" yet; run those that do first`);
  for (const { label, node, sheet } of items) expectDimension(session, `${label} (${sheet})`, node, unit);
  const id = session.define({
    ...sumOf(items.map(({ node }) => node)),
    kind: "formula",
    id: session.idOf(name),
    dimension: unit.dimension.key,
    unit: unit.symbol,
    symbol: name,
    meaning,
  });
  const block: CollectionBlock = { type: "collection", budget, node: id, items };
  session.show(block, [session.evaluation.analysis(id), ...items.map(({ node }) => session.evaluation.analysis(node))]);
  return session.quantity(id, unit) as Quantity<D>;
}

function itemsOf(blocks: readonly ContributionBlock[], budget: string) {
  return blocks.filter((block) => block.budget === budget).flatMap(({ items }) => items);
}

function expectDimension(session: Session, label: string, node: NodeId, unit: Unit<any>): void {
  const found = dimension(session.node(node).dimension);
  if (assignable(found, unit.dimension)) return;
  throw session.error("dimension", `${label} must be ${unit.dimension.label}, got ${found.label}`);
}

/** x_1 + x_2 + … over the items. */
function sumOf(nodes: readonly NodeId[]) {
  const symbols = nodes.map((_, index) => `x_${index + 1}`);
  const [first = "", ...rest] = symbols;
  const expression = rest.reduce<Expression>((sum, symbol) => ({ call: "add", of: [sum, { symbol }] }), { symbol: first });
  return { text: symbols.join(" + "), expression, arguments: Object.fromEntries(nodes.map((node, index) => [symbols[index] ?? "", node])) };
}
