/** Collects what a cell shows, in order, as a notebook stores it. */
import type { Output } from "./notebook";
import type { DisplayData } from "./protocol";

/** More than this printed or shown by one sheet is taken for a run-away loop: 64 Mi characters. */
export const largestOutput = 64 * 1024 * 1024;

/** The outputs of the cells of one sheet. Consecutive texts of one stream are one output, as front ends merge them. */
export class Outputs {
  /** Characters received so far. */
  size = 0;
  private readonly cells = new Map<number, Output[]>();
  private readonly shownAs = new Map<string, { cell: number; index: number }[]>();

  of(cell: number): Output[] {
    const outputs = this.cells.get(cell) ?? [];
    this.cells.set(cell, outputs);
    return outputs;
  }

  stream(cell: number, name: "stdout" | "stderr", text: string): void {
    this.size += text.length;
    const outputs = this.of(cell);
    const last = outputs.at(-1);
    if (text === "") return;
    if (last?.output_type === "stream" && last.name === name) last.text += text;
    else outputs.push({ output_type: "stream", name, text });
  }

  /** `update` replaces what was shown earlier under the same display id, in whichever cell, and shows nothing new. */
  display(cell: number, display: DisplayData, update: boolean): void {
    this.size += JSON.stringify(display.data).length;
    const { data, metadata } = display;
    const id = display.transient?.display_id;
    const places = id === undefined ? [] : (this.shownAs.get(id) ?? []);
    for (const place of places) this.of(place.cell)[place.index] = { output_type: "display_data", data, metadata };
    if (update) return;
    const outputs = this.of(cell);
    outputs.push({ output_type: "display_data", data, metadata });
    if (id !== undefined) this.shownAs.set(id, [...places, { cell, index: outputs.length - 1 }]);
  }

  /** What the cell printed, both streams, for the report of its failure. */
  printed(cell: number): string {
    return this.of(cell)
      .map((output) => (output.output_type === "stream" ? output.text : ""))
      .join("");
  }
}
