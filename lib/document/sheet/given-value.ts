/** The value of a given in a form that the page can make editable. */

import type { GivenNode, GraphNode, TableNode } from "../../graph/node";
import { unitOf } from "../../quantity/unit";
import { nodeLink, type View } from "../model/book-data";
import { type Html, html } from "../text/html";
import { live, numberText } from "../text/show";
import { printedValue } from "../text/units-in-text";

/** A scalar as a field, a table as its points; of anything else, its number. */
export function givenValue(node: GraphNode, view: View): Html {
  switch (node.kind) {
    case "given":
      return scalarField(node);
    case "table":
      return tableField(node);
    case "choice":
      return html`<span class="chosen">${node.chosen}</span>`;
    default:
      return nodeLink(node.id, live({ node: node.id, show: "nominal", unit: node.unit }, view.evaluation), view);
  }
}

function scalarField(node: GivenNode): Html {
  return html`<span class="field" data-given="${node.path}">${printedValue(node.text)}</span>`;
}

function tableField(node: TableNode): Html {
  const x = unitOf(node.xUnit);
  const y = unitOf(node.unit);
  const rows = node.x.map(
    (value, index) =>
      html`<tr><td>${numberText(x.fromSI(value), 6)}</td><td>${numberText(y.fromSI(node.y[index] ?? Number.NaN), 6)}</td></tr>`,
  );
  const rule = {
    linear: "straight lines",
    "log-y": "straight lines of the logarithm",
    "log-log": "straight lines of both logarithms",
    monotone: "a monotone cubic",
  }[node.interpolation];
  return html`<details class="points"><summary>${node.x.length} points, ${node.yName} against ${node.xName}</summary>
<table data-table="${node.path}"><caption>Between the points: ${rule}; outside them: an error.</caption>
<thead><tr><th scope="col">${node.xName}${unitIn(node.xUnit)}</th><th scope="col">${node.yName}${unitIn(node.unit)}</th></tr></thead><tbody>${rows}</tbody></table></details>`;
}

function unitIn(unit: string): string {
  return unit === "1" ? "" : ` in ${unit}`;
}

/** A value after the figure spaces that bring its decimal point under those of its column. */
export function padded(padding: string, value: Html): Html {
  return padding === "" ? value : html`<span class="padding" aria-hidden="true">${padding}</span>${value}`;
}
