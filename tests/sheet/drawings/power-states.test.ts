/** The drawing of power states: the stored picture, every cell of the table in it, no two lines of one event in one place. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { stateTable } from "../../../lib/design/power-states";
import type { DrawnStates } from "../../../lib/sheet/block";
import { drawPowerStates } from "../../../lib/sheet/drawings/power-states";
import { paperStyle, textWidth } from "../../../lib/sheet/drawings/svg";
import { root } from "../../root";

const { note: _, ...written } = parse(readFileSync(join(root, "tests/designs/second.yaml"), "utf8")).states.control;
const { start, off, events, next } = stateTable(written);
const table: DrawnStates = {
  id: "control",
  start,
  off,
  events: Object.entries(events).map(([event, meaning]) => ({ event, meaning })),
  rows: Object.entries(next).map(([state, row]) => ({ state, next: row })),
};
const currents = Object.fromEntries(table.rows.map(({ state }, i) => [state, i % 3 === 0 ? 1.2e-6 : 0.2]));
const drawn = (more: Partial<typeof currents> = {}) => drawPowerStates(table, { ...currents, ...more } as typeof currents, paperStyle);
const count = (svg: string, pattern: RegExp): number => [...svg.matchAll(pattern)].length;

describe("the drawing of power states", () => {
  it("is the stored picture", async () => {
    await expect(drawn()).toMatchFileSnapshot("power-states.svg");
  });

  it("marks every cell of the table once, a branch that leads on at each of its lines", () => {
    const cells = table.rows.flatMap(({ state, next: row }) => table.events.map(({ event }) => ({ state, cell: row[event] })));
    const alone = (word: string) => cells.filter(({ cell }) => cell === word).length;
    const leaving = cells.flatMap(({ state, cell }) =>
      (typeof cell === "string" ? [cell] : (cell ?? []).map(({ to }) => to)).filter(
        (to) => to !== "stay" && to !== "impossible" && to !== state,
      ),
    );
    // One of each mark more, in the key: two open or full circles, a dot, a cross of two lines.
    expect(count(drawn(), /<circle[^>]* r="3.5"/g)).toBe(leaving.length + 2);
    expect(count(drawn(), /<circle[^>]* r="1.5"/g)).toBe(alone("stay") + 1);
    expect(count(drawn(), /<line[^>]* opacity="0.5"/g)).toBe(2 * (alone("impossible") + 1));
  });

  it("keeps the lines of one event apart", () => {
    const lines = [...drawn().matchAll(/<line x1="([\d.]+)" y1="([\d.]+)" x2="([\d.]+)" y2="([\d.]+)" stroke-width="1.5"/g)].map(
      ([, ...ends]) => ends.map(Number),
    );
    expect(lines.length).toBeGreaterThan(15);
    for (const [k, [x1 = 0, y1, x2 = 0]] of lines.entries())
      for (const [from = 0, y, to = 0] of lines.slice(k + 1)) expect(y1 !== y || x2 < from || to < x1).toBe(true);
  });

  it("keeps its texts apart", () => {
    const texts = [
      ...drawn()
        .replaceAll(/[\u00a0\u202f\u2009]/g, " ")
        .matchAll(/<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g),
    ].map(([, x, y, anchor, words = ""]) => {
      const wide = textWidth(words);
      const left = Number(x) - (anchor === "middle" ? wide / 2 : anchor === "end" ? wide : 0);
      return { words, left, right: left + wide, y: Number(y) };
    });
    for (const [k, a] of texts.entries())
      for (const b of texts.slice(k + 1))
        expect(Math.abs(a.y - b.y) >= 12 || a.right < b.left || b.right < a.left, `${a.words} and ${b.words}`).toBe(true);
  });

  it("says the whole table to those who do not see it", () => {
    expect(drawn()).toContain("From off, press leads to play if the cell stands above the start, else empty.");
    expect(drawn()).toContain("From empty, plug leads to charge.");
  });

  it("refuses a state without a current", () => {
    expect(() => drawn({ fault: 0 })).toThrow("the state 'fault' has no current above 0 A");
    expect(() => drawPowerStates(table, {}, paperStyle)).toThrow("the state 'off' has no current");
  });
});
