/** The demo's table of power states against a brute-force walk: the product around it as a model of its own, and everything that can happen. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { root } from "../root";
import { answer, full, happenings, isDark, type Plant, type Table } from "./control-plant";

const { start, off, events, next } = parse(readFileSync(join(root, "data/bittern/design.yaml"), "utf8")).states.control as {
  readonly start: string;
  readonly off: string;
  readonly events: Readonly<Record<string, string>>;
  readonly next: Table;
};

interface Visit {
  readonly plant: Plant;
  readonly after: readonly { readonly name: string; readonly plant: Plant }[];
}

const used = new Set<string>();

/** The product after all events of a happening, each answered by the table; one that comes out dark has no state but the first. */
function settled(table: Table, plant: Plant, sent: readonly string[]): Plant {
  const state = sent.reduce((now, event) => {
    used.add(`${event} in ${now}`);
    return answer(table, { ...plant, state: now }, event);
  }, plant.state);
  return { ...plant, state: isDark(plant) ? start : state };
}

/** Every product that can come about, with all that can happen to it. */
function walk(table: Table, isAllowed: (name: string) => boolean = () => true, from?: Plant): Map<string, Visit> {
  const first: Plant = from ?? { state: start, source: "none", cell: "in", warm: true, level: full };
  const found = new Map<string, Visit>();
  const waiting = [first];
  for (const plant of waiting) {
    const key = JSON.stringify(plant);
    if (found.has(key)) continue;
    const after = happenings(plant)
      .filter(({ name }) => isAllowed(name))
      .map(({ name, plant: changed, events: sent }) => ({ name, plant: settled(table, changed, sent) }));
    found.set(key, { plant, after });
    waiting.push(...after.map((one) => one.plant));
  }
  return found;
}

const all = walk(next);
const plants = [...all.values()].map(({ plant }) => plant);

describe("the power states of the demo, walked through by brute force", () => {
  it("meet nothing that the table leaves open or calls impossible, and every state", () => {
    expect(plants.length).toBeGreaterThan(100);
    expect(new Set(plants.map(({ state }) => state))).toEqual(new Set(Object.keys(next)));
  });

  it("know from their state whether a source is there", () => {
    const kinds = new Set(plants.map(({ state, source }) => `${state}: ${source === "none" ? "none" : "there"}`));
    expect(kinds.size).toBe(Object.keys(next).length);
  });

  it("charge only a warm cell from a source that holds", () => {
    const charging = plants.filter(({ state }) => state.startsWith("charge"));
    expect(charging.filter(({ source, warm, cell }) => source !== "good" || !warm || cell === "out")).toEqual([]);
  });

  it("play without a source only on a cell above its cut-off, and the loudest only above amber", () => {
    const alone = plants.filter(({ state }) => state === "play" || state === "low");
    expect(alone.filter(({ level, cell }) => level === 0 || cell === "out")).toEqual([]);
  });

  it("stay empty, whatever is pressed and however the cell springs back, until a source or another cell comes", () => {
    const emptied = plants.filter(({ state, cell }) => state === "empty" && cell === "in");
    expect(emptied.length).toBeGreaterThan(1);
    for (const plant of emptied) {
      const states = [...walk(next, (name) => !/^(plug|cell pulled)/.test(name), plant).values()].map((visit) => visit.plant.state);
      expect(new Set(states)).toEqual(new Set(["empty"]));
    }
  });

  it("lead back to off from everything that can come about", () => {
    const back = new Set([...all].filter(([, { plant }]) => plant.state === off).map(([key]) => key));
    for (let grows = true; grows; ) {
      grows = false;
      for (const [key, { after }] of all) {
        if (back.has(key) || !after.some(({ plant }) => back.has(JSON.stringify(plant)))) continue;
        back.add(key);
        grows = true;
      }
    }
    expect([...all.keys()].filter((key) => !back.has(key))).toEqual([]);
  });

  it("call impossible what nothing brings about, and nothing else", () => {
    const pairs = Object.keys(next).flatMap((state) => Object.keys(events).map((event) => [state, event] as const));
    const never = pairs.filter(([state, event]) => !used.has(`${event} in ${state}`));
    expect(never.map(([state, event]) => `${event} in ${state}`)).toEqual(
      pairs.filter(([state, event]) => next[state]?.[event] === "impossible").map(([state, event]) => `${event} in ${state}`),
    );
  });

  it.each([
    ["an empty cell that is asked again", "empty", "press", "play"],
    ["a product that plays on when it is empty", "play", "empty", "stay"],
    ["a charger that goes on in the cold", "charge", "window", "stay"],
    ["a source that is thought to be there", "play", "plug", "stay"],
  ])("are not passed with %s", (_title, state, event, to) => {
    const spoiled: Table = { ...next, [state]: { ...next[state], [event]: to } };
    const faults = (): string[] => {
      const seen = [...walk(spoiled).values()].map(({ plant }) => plant);
      return [
        ...seen.filter((plant) => plant.state.startsWith("charge") && !plant.warm).map(() => "charges a cold cell"),
        ...seen.filter((plant) => plant.state === "play" && plant.level === 0 && plant.source === "none").map(() => "plays on nothing"),
        ...seen
          .filter((plant) => (plant.state === "play") !== (plant.source === "none") && plant.state === "play")
          .map(() => "plays as if alone"),
        ...[...walk(spoiled).values()]
          .filter(({ plant, after }) => plant.state === "empty" && after.some((one) => one.name === "press" && one.plant.state !== "empty"))
          .map(() => "starts again"),
      ];
    };
    let told: string[];
    try {
      told = faults();
    } catch (error) {
      told = [(error as Error).message];
    }
    expect(told).not.toEqual([]);
  });
});
