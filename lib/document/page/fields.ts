/** Givens as fields: the reader types a value, moves a slider, edits the points of a table or takes another alternative. */

import { type Changes, isChanged, type TableChange } from "../../graph/graph";
import type { ChoiceNode, GivenNode, GraphNode, TableNode } from "../../graph/node";
import { entryOf } from "../../quantity/entry-of";
import { limitsOf } from "../../quantity/limits";
import { unitOf } from "../../quantity/unit";
import { scaleTable, turnGiven } from "../live/turn";
import { nodeWords } from "../model/names";
import { numberText } from "../text/show";
import { printedValue } from "../text/units-in-text";
import { all, make } from "./dom";
import type { Store } from "./store";

/** Brings a field to what the changes say. */
export type Sync = (changes: Changes) => void;

/** Makes every given, table and decision of the page editable; call the results after each change. */
export function openFields(nodes: readonly GraphNode[], store: Store): Sync[] {
  const byPath = new Map(nodes.flatMap((node) => ("path" in node ? [[node.path, node] as const] : [])));
  const at = (path: string | undefined) => byPath.get(path ?? "");
  return [
    ...all<HTMLElement>("[data-given]").flatMap((span, index) => {
      const node = at(span.dataset.given);
      return node?.kind === "given" ? [ofItsOwn("givens", node.path, scalarField(span, node, index, store))] : [];
    }),
    ...all<HTMLTableElement>("[data-table]").flatMap((table) => {
      const node = at(table.dataset.table);
      return node?.kind === "table" ? [ofItsOwn("tables", node.path, tableField(table, node, store))] : [];
    }),
    ...all<HTMLFieldSetElement>("[data-choice]").flatMap((set) => {
      const node = at(set.dataset.choice);
      return node?.kind === "choice" ? [ofItsOwn("choices", node.path, choiceField(set, node, store))] : [];
    }),
  ];
}

/** A field whose own change is the same as before is left alone, with what the reader may just be typing in it. */
function ofItsOwn(kind: keyof Changes, path: string, sync: Sync): Sync {
  let last: unknown;
  return (changes) => {
    const own = entryOf<unknown>(changes[kind], path);
    // Resetting everything also takes back what was mistyped.
    if (own === last && isChanged(changes)) return;
    last = own;
    sync(changes);
  };
}

function scalarField(span: HTMLElement, node: GivenNode, index: number, store: Store): Sync {
  const label = nodeWords(node);
  const note = make("span", { class: "field-note", id: `field-note-${index}` });
  const input = make("input", {
    type: "text",
    class: "field",
    "aria-label": label,
    "aria-describedby": note.id,
    spellcheck: "false",
    autocomplete: "off",
    autocapitalize: "off",
  });
  const back = make("button", { type: "button", class: "back", "aria-label": `Reset ${label}` }, "reset");
  const slider = sliderFor(node, label);
  const enter = (text: string) => {
    const failed = refusal(() => store.set("givens", node.path, text.trim() === node.text ? undefined : turnGiven(node, text).change));
    input.setAttribute("aria-invalid", String(failed !== undefined));
    note.classList.toggle("wrong", failed !== undefined);
    if (failed !== undefined) note.textContent = failed;
  };
  input.addEventListener("change", () => enter(input.value));
  slider?.addEventListener("input", () => enter(sliderText(Number(slider.value), node.unit)));
  back.addEventListener("click", () => {
    store.set("givens", node.path, undefined);
    sync(store.changes);
    input.focus();
  });
  const box = make("span", { class: "field-box", "data-field": node.path }, input, back, ...(slider ? [slider] : []), note);
  span.replaceWith(box);
  const sync: Sync = ({ givens }) => {
    const change = entryOf(givens, node.path);
    input.value = change?.text ?? node.text;
    // On paper this stands for the input, whose text could not be broken into lines.
    box.dataset.text = printedValue(input.value);
    input.size = Math.min(Math.max(input.value.length, 6), 30);
    input.classList.toggle("differs", change !== undefined);
    input.setAttribute("aria-invalid", "false");
    back.hidden = change === undefined;
    if (slider) slider.value = String(unitOf(node.unit).fromSI(change?.nominal ?? node.nominal));
    note.classList.remove("wrong");
    note.textContent = change ? (turnNote(node, change.text) ?? "") : "";
  };
  sync({});
  return sync;
}

function turnNote(node: GivenNode, text: string): string {
  return [`was ${node.text}`, turnGiven(node, text).note].filter(Boolean).join("; ");
}

/** A slider across what the design file allows; none for an exact given. */
function sliderFor(node: GivenNode, label: string): HTMLInputElement | undefined {
  const { fromSI } = unitOf(node.unit);
  const [low = 0, high = 0] = limitsOf(node.spread, node.nominal).map(fromSI);
  if (!(high > low)) return undefined;
  return make("input", {
    type: "range",
    min: String(low),
    max: String(high),
    step: String((high - low) / 200),
    "aria-label": `${label}: ${node.spread.kind === "range" ? "a point of its range" : "another nominal value; its tolerance goes with it"}`,
  });
}

function sliderText(value: number, unit: string): string {
  const number = String(Number(value.toPrecision(5)));
  return unit === "1" ? number : `${number} ${unit}`;
}

function tableField(table: HTMLTableElement, node: TableNode, store: Store): Sync {
  const units = [unitOf(node.xUnit), unitOf(node.unit)] as const;
  const message = make("p", { class: "field-note", role: "status" });
  const back = make("button", { type: "button", class: "back" }, "reset the table");
  const cells = all<HTMLTableCellElement>("tbody td", table).map((cell, index) => {
    const input = make("input", {
      type: "text",
      inputmode: "decimal",
      class: "cell",
      autocomplete: "off",
      "aria-label": `${index % 2 === 0 ? node.xName : node.yName}, point ${Math.floor(index / 2) + 1}`,
    });
    cell.replaceChildren(input);
    return input;
  });
  const scale = make("input", {
    type: "text",
    inputmode: "decimal",
    class: "cell scale",
    autocomplete: "off",
    "aria-label": `factor for every ${node.yName}`,
  });
  let present: TableChange = node;
  let shown: readonly string[] = [];
  const columnOf = (which: 0 | 1, own: readonly number[]) =>
    cells
      .filter((_, index) => index % 2 === which)
      .map((input, row) =>
        // A cell that was not touched keeps its exact value, not its text.
        input.value === shown[2 * row + which]
          ? (own[row] ?? Number.NaN)
          : units[which].toSI(Number(input.value.replace("−", "-").replace(",", ".") || "x")),
      );
  const enter = (change: () => TableChange | undefined) => {
    const failed = refusal(() => store.set("tables", node.path, change()));
    message.textContent = failed ?? "";
    message.classList.toggle("wrong", failed !== undefined);
  };
  for (const input of cells) input.addEventListener("change", () => enter(() => checked(columnOf(0, present.x), columnOf(1, present.y))));
  scale.addEventListener("change", () => enter(() => scaleTable(node, scale.value)));
  back.addEventListener("click", () => store.set("tables", node.path, undefined));
  table.after(make("label", { class: "scaling" }, `every ${node.yName} × `, scale), back, message);
  const sync: Sync = ({ tables }) => {
    const change = entryOf(tables, node.path);
    present = change ?? node;
    const valueAt = ({ x, y }: TableChange, index: number) => (index % 2 === 0 ? x : y)[Math.floor(index / 2)] ?? 0;
    shown = cells.map((_, index) => plain(units[index % 2 === 0 ? 0 : 1].fromSI(valueAt(present, index))));
    for (const [index, input] of cells.entries()) {
      input.value = shown[index] ?? "";
      input.classList.toggle("differs", valueAt(present, index) !== valueAt(node, index));
    }
    scale.value = change === undefined ? "1" : String(change.scale ?? "");
    scale.classList.toggle("differs", change?.scale !== undefined);
    back.hidden = change === undefined;
  };
  sync({});
  return sync;
}

function checked(x: readonly number[], y: readonly number[]) {
  if (![...x, ...y].every(Number.isFinite)) throw new Error("every cell must be a number");
  if (x.some((value, index) => index > 0 && value <= (x[index - 1] ?? 0))) throw new Error("the first column must rise from row to row");
  return { x, y };
}

function plain(value: number): string {
  return numberText(value, 6).includes("×") ? String(Number(value.toPrecision(6))) : numberText(value, 6).replace("−", "-");
}

function choiceField(set: HTMLFieldSetElement, node: ChoiceNode, store: Store): Sync {
  const radios = all<HTMLInputElement>("input", set);
  for (const radio of radios) {
    radio.disabled = !node.options.includes(radio.value);
    radio.addEventListener("change", () => store.set("choices", node.path, radio.value === node.chosen ? undefined : radio.value));
  }
  return ({ choices }) => {
    for (const radio of radios) radio.checked = radio.value === (entryOf(choices, node.path) ?? node.chosen);
    set.classList.toggle("differs", entryOf(choices, node.path) !== undefined);
  };
}

/** Why the store refused; undefined where it took the change. */
function refusal(act: () => void): string | undefined {
  try {
    act();
    return undefined;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}
