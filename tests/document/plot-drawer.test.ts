import { expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { keptSpread } from "../../lib/analysis/kept-spread";
import type { GivenNode } from "../../lib/graph/node";
import { renderPlot } from "../../lib/sheet/plot/plot";
import { PlotDrawer } from "../../lib/sheet/plot/plot-drawer";
import { pair } from "../demo-book";

const book = pair.made();
const plots = Object.entries(book.blocks).flatMap(([ref, block]) => (block.type === "plot" ? [{ ref, block }] : []));

/** Every given a twentieth more: what the plots show moves. Not those at the end of a table, such as the band of a limit. */
const moved = new Evaluation(
  book.graph.withChanges({
    givens: Object.fromEntries(
      book.graph
        .nodes()
        .filter(
          (node): node is GivenNode => node.kind === "given" && node.nominal > 0 && !["°C", "%", "1", "MHz", "GHz"].includes(node.unit),
        )
        .map((node) => [node.path, { nominal: node.nominal * 1.05, text: node.text, spread: keptSpread(node, node.nominal * 1.05) }]),
    ),
  }),
);

it("draws a plot as if for the first time, whatever it has drawn before", { timeout: 600_000 }, () => {
  const drawer = new PlotDrawer();
  expect(plots.length).toBeGreaterThan(0);
  for (const evaluation of [book.evaluation, moved, book.evaluation, moved])
    for (const { ref, block } of plots) {
      drawer.compile(block, evaluation);
      expect(drawer.render(block, evaluation, ref), ref).toBe(renderPlot(block, evaluation, ref));
    }
  const drawn = (evaluation: Evaluation) => plots.map(({ ref, block }) => drawer.render(block, evaluation, ref));
  expect(drawn(moved)).not.toEqual(drawn(book.evaluation));
  const isNamed = ({ ref, block }: (typeof plots)[number]) => drawer.render(block, moved, "other-") !== drawer.render(block, moved, ref);
  expect(plots.some(isNamed)).toBe(true);
});
