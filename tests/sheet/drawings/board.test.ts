/** The drawings of a board: sizes shown, to scale, stored pictures, no overlap of texts, refusals. */
import { describe, expect, it } from "vitest";
import { drawingNamed } from "../../../lib/sheet/drawings/registry";
import { pageStyle, paperStyle, textWidth } from "../../../lib/sheet/drawings/svg";

const stack = { outer: 35e-6, prepreg: 0.2e-3, inner: 16e-6, core: 0.6e-3, trace: 0.3e-3, drill: 0.3e-3, plating: 25e-6 };
const places = {
  length: 52e-3,
  width: 29e-3,
  pitch: 5e-3,
  ...{ x_s: 3e-3, y_s: 8e-3, x_i: 6e-3, y_i: 22e-3, x_a: 14e-3, y_a: 15e-3 },
  ...{ x_c: 44e-3, y_c: 18e-3, x_b: 50e-3, y_b: 18e-3, x_n: 22e-3, y_n: 24e-3 },
};
const section = (more: Partial<typeof stack> = {}, style = paperStyle) => drawingNamed("board.stack").draw({ ...stack, ...more }, style);
const plan = (more: Partial<typeof places> = {}, style = paperStyle) => drawingNamed("board.return").draw({ ...places, ...more }, style);

const plain = (svg: string) => svg.replaceAll(/[\u00a0\u202f\u2009]/g, " ");
const texts = (svg: string) =>
  [...plain(svg).matchAll(/<text x="([-\d.]+)" y="([-\d.]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g)].map(([, x, y, anchor, content = ""]) => {
    const [at, w] = [Number(x), textWidth(content)];
    return {
      content,
      left: at - (anchor === "middle" ? w / 2 : anchor === "end" ? w : 0),
      right: at + (anchor === "start" ? w : anchor === "middle" ? w / 2 : 0),
      y: Number(y),
    };
  });
function expectApart(svg: string): void {
  const all = texts(svg);
  for (const [k, a] of all.entries())
    for (const b of all.slice(k + 1))
      expect(Math.abs(a.y - b.y) >= 12 || a.right <= b.left || b.right <= a.left, `${a.content} and ${b.content}`).toBe(true);
  expect(all.filter(({ left, right }) => left < 0 || right > 660)).toEqual([]);
}
/** Circles of the radius 6, the places, in the order of the drawing. */
const dots = (svg: string) =>
  [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="6"/g)].map(([, x, y]) => [Number(x), Number(y)] as const);

describe("board.stack", () => {
  it("is the stored picture", async () => {
    await expect(section()).toMatchFileSnapshot("board-stack.svg");
  });

  it("names each layer from above with its thickness", () => {
    const labels = texts(section()).filter(({ left }) => left > 500);
    expect(labels.map(({ content }) => content)).toEqual([
      "signals, parts 35 µm",
      "prepreg 0.2 mm",
      "plane 16 µm",
      "core 0.6 mm",
      "plane 16 µm",
      "prepreg 0.2 mm",
      "signals, rails 35 µm",
    ]);
    for (const shown of ["trace 0.3 mm", "via 0.3 mm,", "plated 25 µm"])
      expect(texts(section()).map(({ content }) => content)).toContain(shown);
  });

  it("is to one scale along and across", () => {
    const heights = [...section().matchAll(/<rect x="20" y="[\d.]+" width="450" height="([\d.]+)"/g)].map(([, h]) => Number(h));
    const [trace] = [...section().matchAll(/width="([\d.]+)" height="[\d.]+" fill="#1a936f"/g)].map(([, w]) => Number(w));
    const scale = Math.max(...heights) / stack.core;
    expect((trace as number) / scale / stack.trace).toBeCloseTo(1, 3);
    expect(Math.min(...heights) / scale / stack.inner).toBeCloseTo(1, 1);
  });

  it("lets no two texts overlap, thin board or thick", () => {
    for (const more of [{}, { core: 0.3e-3, prepreg: 0.1e-3 }, { core: 1.2e-3, inner: 70e-6, outer: 70e-6 }]) expectApart(section(more));
  });

  it("refuses a hole that its plating fills, and takes the page's colours", () => {
    expect(() => section({ plating: 0.2e-3 })).toThrow(/a plating of 200.µm fills the hole/);
    expect(section({}, pageStyle)).toContain("var(--paper");
  });
});

describe("board.return", () => {
  it("is the stored picture", async () => {
    await expect(plan()).toMatchFileSnapshot("board-return.svg");
  });

  it("sets every place to scale, from the lower left corner", () => {
    const [sleeve, input, amplifier, converter, cell] = dots(plan()) as (readonly [number, number])[];
    const scale = ((cell as readonly number[])[0] as number) - ((sleeve as readonly number[])[0] as number);
    const share = (from: readonly number[] = [], to: readonly number[] = []) => ((to[0] as number) - (from[0] as number)) / scale;
    expect(share(sleeve, amplifier)).toBeCloseTo(11 / 47, 3);
    expect(share(sleeve, converter)).toBeCloseTo(41 / 47, 3);
    expect((input as readonly number[])[1]).toBeLessThan((sleeve as readonly number[])[1] as number);
  });

  it("has vias along the edge no further apart than the pitch", () => {
    const vias = [...plan().matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="2"/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
    const lower = vias.filter(([, y]) => y === Math.max(...vias.map(([, other]) => other))).map(([x]) => x);
    const [first, second] = lower.toSorted((a, b) => a - b);
    const scale = 540 / places.length;
    expect((second as number) - (first as number)).toBeLessThanOrEqual(places.pitch * scale);
    expect((second as number) - (first as number)).toBeGreaterThan(places.pitch * scale * 0.8);
  });

  it("lets no two names overlap", () => {
    expectApart(plan());
    expectApart(plan({ x_i: 3e-3, x_c: 49e-3 }));
  });

  it("refuses a place beside the board", () => {
    expect(() => plan({ x_b: 60e-3 })).toThrow("the cell stands beside the board");
  });
});
