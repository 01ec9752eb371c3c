import { describe, expect, it } from "vitest";
import { sideBySide, type Task } from "../../lib/cli/side-by-side";

const chain: readonly Task[] = [
  { name: "a", after: [] },
  { name: "b", after: ["a", "of another run"] },
  { name: "c", after: [] },
  { name: "d", after: ["b", "c"] },
];

/** What started and ended, in order; a task takes as many turns as its letter stands for. */
async function record(places: number, tasks = chain, isOver = () => false) {
  const events: string[] = [];
  await sideBySide(
    tasks,
    places,
    async (name, place) => {
      events.push(`${name} at ${place}`);
      for (let turn = 0; turn < name.charCodeAt(0) - 90; turn++) await Promise.resolve();
      events.push(`${name} done`);
    },
    isOver,
  );
  return events;
}

describe("sideBySide", () => {
  it("runs one after the other in order where there is one place", async () => {
    expect(await record(1)).toEqual(["a at 0", "a done", "b at 0", "b done", "c at 0", "c done", "d at 0", "d done"]);
  });

  it("starts what can start while there is a place, and what needs others when those are done", async () => {
    expect(await record(2)).toEqual(["a at 0", "c at 1", "a done", "c done", "b at 0", "b done", "d at 0", "d done"]);
    expect((await record(9)).slice(0, 2)).toEqual(["a at 0", "c at 1"]);
  });

  it("starts nothing more when it is over, and waits for what runs", async () => {
    let asked = 0;
    expect(await record(2, chain, () => asked++ > 0)).toEqual(["a at 0", "a done"]);
  });

  it("rejects with the first error, when nothing runs any more", async () => {
    const done: string[] = [];
    const failing = sideBySide(
      chain,
      2,
      async (name) => {
        if (name === "a") throw new Error("a is broken");
        await new Promise((resolve) => setTimeout(resolve, 5));
        done.push(name);
      },
      () => false,
    );
    await expect(failing).rejects.toThrow("a is broken");
    expect(done).toEqual(["c"]);
  });
});
