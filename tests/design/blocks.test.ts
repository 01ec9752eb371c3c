/** The blocks of the product in the design file: what is read, and what each fault says. */
import { describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { failure, spoil } from "./fixture";

const text = (blocks: string) => `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  supply: { main: { voltage: { value: 5 V ±5 %, meaning: supply, source: own } } }
blocks:
${blocks}`;

const sound = `  cell: { name: Cell, does: stores, return: ground }
  lamp: { name: Lamp, does: shines, signal: switch, power: [cell], return: ground, draws: light.P }
  switch: { name: Switch, does: "turns it on", power: cell, voltage: supply.main.voltage }
  ground: { name: Return, does: leads back }
`;

const read = (blocks: string) => readDesign(text(blocks), "d.yaml").blocks;
const fault = (from: string, to: string): string => failure(text(spoil(from, to, sound)));

describe("blocks", () => {
  it("are read in their order, a single name as a list of one", () => {
    expect(read(sound).map(({ id }) => id)).toEqual(["cell", "lamp", "switch", "ground"]);
    expect(read(sound)[1]).toEqual({
      id: "lamp",
      name: "Lamp",
      does: "shines",
      signal: ["switch"],
      power: ["cell"],
      return: ["ground"],
      draws: "light.P",
    });
  });

  it("may be left out", () => {
    expect(readDesign(text(sound).split("blocks:")[0] as string, "d.yaml").blocks).toEqual([]);
  });

  it.each([
    [
      "an unknown block",
      "signal: switch",
      "signal: swich",
      "d.yaml:8:45: signal of block 'lamp' names no block: 'swich'; expected the name of a block; did you mean 'switch'?",
    ],
    ["itself", "power: [cell]", "power: [lamp]", "block 'lamp' has its power from itself; expected another block"],
    [
      "a loop of power",
      "does: stores,",
      "does: stores, power: switch,",
      "block 'cell' feeds itself through others; expected power that goes one way",
    ],
    [
      "a return that feeds",
      "power: [cell], return: ground, draws",
      "power: [cell], return: cell, draws",
      "block 'cell' is the return of 'lamp' and has signal or power as well; expected a return of its own",
    ],
    [
      "a path that is no given",
      "supply.main.voltage",
      "supply.main.voltag",
      "voltage of block 'switch' names no given: 'supply.main.voltag'; expected the path of a given, or a result as sheet.name; did you mean 'supply.main.voltage'?",
    ],
    [
      "a figure to show that is none",
      "voltage: supply.main.voltage",
      "shows: supply.main.voltag",
      "shows of block 'switch' names no given: 'supply.main.voltag'",
    ],
    ["an unknown key", "draws: light.P", "draw: light.P", "unknown key 'draw' in block 'lamp'"],
    ["no name", "name: Cell, ", "", "block 'cell' has no name; expected a key 'name'"],
    ["a number for a name", "power: [cell]", "power: [7]", "power of block 'lamp' is no name"],
  ])("with %s are refused at their place", (_, from, to, message) => {
    expect(fault(from, to)).toContain(message);
  });

  it("that stand twice are refused", () => {
    expect(() => read(`${sound}  cell: { name: Again, does: stores }\n`)).toThrow(/the key 'cell' stands here a second time/);
  });
});
