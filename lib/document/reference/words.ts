/** A subject's words for a symbol hold for one dimension: `t: time` must not stand beside a length. */
import type { SubjectExamples } from "../../design/examples";
import type { Slot } from "../../graph/model";
import type { Subject } from "./catalogue";
import { inputsOf } from "./example";

/** Sentences: symbols of different dimensions in laws that leave their words to the subject. */
export function wordFaults({ name: subject, entries }: Subject, { fileName, symbols, laws }: SubjectExamples): string[] {
  const uses = new Map<string, Map<string, { readonly label: string; readonly of: string[] }>>();
  for (const entry of entries) {
    for (const [symbol, slot] of Object.entries(inputsOf(entry))) {
      if (symbols[symbol] === undefined || laws.get(entry.name)?.symbols[symbol] !== undefined) continue;
      const { si, label } = dimensionOf(slot);
      const by = uses.get(symbol) ?? new Map();
      uses.set(symbol, by);
      const use = by.get(si) ?? { label, of: [] };
      by.set(si, use);
      use.of.push(entry.name);
    }
  }
  return [...uses].flatMap(([symbol, by]) => {
    if (by.size < 2) return [];
    const each = [...by.values()].map(({ label, of }) => `${label} in ${of.join(", ")}`);
    return [
      `${fileName}: '${symbol}' is "${symbols[symbol]}" in all laws of ${subject}, but it is ${each.join("; ")}; write under symbols of a law what it means there`,
    ];
  });
}

/** Of a table, what it gives. */
function dimensionOf(slot: Slot): { readonly si: string; readonly label: string } {
  return "shape" in slot ? slot.y.dimension : slot.dimension;
}
