import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { drawingNamed } from "../../../lib/sheet/drawings/registry";
import { fontSize, pageStyle, paperStyle, textWidth } from "../../../lib/sheet/drawings/svg";

const usual = {
  width: 36,
  height: 14,
  radius: 3,
  wall: 2.1,
  lower: 8,
  parts: 2.2,
  board: 1,
  cell: 4.9,
  growth: 0.49,
  boardWidth: 30,
  cellWidth: 25,
  deflection: 0.33,
};
type Sizes = Record<keyof typeof usual, number>;

/** From millimetres. */
function svg(changes: Partial<Sizes> = {}, style = pageStyle): string {
  const sizes = Object.fromEntries(Object.entries({ ...usual, ...changes }).map(([key, value]) => [key, value * 1e-3]));
  return drawingNamed("enclosure.section").draw(sizes, style);
}

interface Box {
  readonly content: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Boxes of all labels, from the same estimate of widths that the layout uses. */
function labels(markup: string): Box[] {
  return [...markup.matchAll(/<text x="([^"]+)" y="([^"]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g)].map(([, x, y, anchor, content = ""]) => {
    const width = textWidth(content);
    const left = Number(x) - (anchor === "end" ? width : anchor === "middle" ? width / 2 : 0);
    return { content, left, right: left + width, top: Number(y) - 0.8 * fontSize, bottom: Number(y) + 0.25 * fontSize };
  });
}

function overlapping(boxes: readonly Box[]): string[] {
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map((b) => `${a.content} / ${b.content}`),
  );
}

const texts = (markup: string): string[] => labels(markup).map(({ content }) => content.replaceAll("\u00a0", " "));

/** x, y, width, height of every rectangle, px. */
function rectangles(markup: string): number[][] {
  return [...markup.matchAll(/<rect x="(\S+)" y="(\S+)" width="(\S+)" height="(\S+)"/g)].map((found) => found.slice(1).map(Number));
}

describe("drawing enclosure.section", () => {
  it("draws a usual enclosure as before", async () => {
    await expect(`${svg({}, paperStyle)}\n`).toMatchFileSnapshot("enclosure-section.svg");
  });

  it("states the sizes of the case and of the stack, and what is left over", () => {
    const left = 14 - 2 * 2.1 - 2.2 - 1 - 4.9 - 0.49 - 0.33;
    expect(texts(svg())).toEqual(
      expect.arrayContaining([
        "36 mm",
        "14 mm",
        "2.1 mm",
        "thumb: 0.33 mm",
        "parts 2.2 mm",
        "board 1 mm",
        "cell 4.9 mm",
        "swelling 0.49 mm",
        `left over ${left.toFixed(2)} mm`,
      ]),
    );
  });

  it("draws case, board, cell, swelling and the yielding wall to the scale of its bar", () => {
    const markup = svg();
    const [, bar] = /M16 [\d.]+ L[\d.]+ [\d.]+ L([\d.]+) /.exec(markup) ?? [];
    const px = ((Number(bar) - 16) * 2) / 5; // half of the bar is drawn first; its value is 5 mm
    expect(texts(markup)).toContain("5 mm");
    const drawn = rectangles(markup);
    for (const [w, h] of [
      [36, 14],
      [31.8, 9.8],
      [30, 1],
      [25, 4.9],
      [25, 0.49],
    ] as const) {
      const found = drawn.some(([, , width = 0, height = 0]) => Math.abs(width / px - w) < 0.02 && Math.abs(height / px - h) < 0.02);
      expect(found, `${w} by ${h} mm`).toBe(true);
    }
    const sags = [...markup.matchAll(/d="M\S+ (\S+) Q\S+ (\S+) /g)].map(([, y, pole]) => (Number(pole) - Number(y)) / 2 / px);
    expect(sags.length).toBe(2);
    for (const sag of sags) expect(sag).toBeCloseTo(0.33, 2);
  });

  it("stacks board and cell without a gap, from the parts upwards", () => {
    const drawn = rectangles(svg());
    const board = drawn.find(([, , width = 0]) => Math.abs(width / (drawn[0]?.[2] ?? 1) - 30 / 36) < 1e-3);
    const cells = drawn.filter(([, , width = 0]) => Math.abs(width / (drawn[0]?.[2] ?? 1) - 25 / 36) < 1e-3);
    const [cell, growth] = cells.sort((a, b) => (b[3] ?? 0) - (a[3] ?? 0));
    const bottom = (r: number[] | undefined) => (r?.[1] ?? 0) + (r?.[3] ?? 0);
    expect(bottom(cell)).toBeCloseTo(board?.[1] ?? 0, 1);
    expect(bottom(growth)).toBeCloseTo(cell?.[1] ?? 0, 1);
  });

  it("draws a stack that is too high, and says by how much", () => {
    expect(texts(svg({ cell: 6 }))).toContain("left over -0.22 mm".replace("-", "−"));
  });

  it("keeps its labels apart and inside the drawing for all plausible sizes", () => {
    const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const sizes = fc.record({
      width: size(30, 120),
      height: size(12, 40),
      radius: size(1, 5),
      wall: size(0.8, 3),
      parts: size(1, 4),
      cell: size(3, 8),
      growth: size(0.1, 1),
      deflection: size(0.01, 1),
    });
    fc.assert(
      fc.property(sizes, (changes) => {
        const markup = svg({ ...changes, lower: changes.height / 2, boardWidth: changes.width / 2, cellWidth: changes.width / 2.5 });
        const boxes = labels(markup);
        const [, width = "0", height = "0"] = /viewBox="0 0 (\S+) (\S+)"/.exec(markup) ?? [];
        expect(boxes.length).toBe(10);
        expect(overlapping(boxes)).toEqual([]);
        for (const { left, right, top, bottom } of boxes) {
          expect(Math.min(left, top)).toBeGreaterThanOrEqual(0);
          expect(right).toBeLessThanOrEqual(Number(width));
          expect(bottom).toBeLessThanOrEqual(Number(height));
        }
      }),
      { seed: 6, numRuns: 500 },
    );
  });

  it("has a name and a description, no ids, no inline style, and no number that is not finite", () => {
    const markup = svg();
    expect(markup).toContain("<title>Section through the enclosure</title><desc>To scale: a case 36");
    expect(markup).toContain('role="img"');
    expect(markup).not.toMatch(/ id=| style=|NaN|Infinity|undefined/);
  });

  it("refuses sizes that cannot be, naming them", () => {
    expect(() => svg({ wall: 7 })).toThrow(/walls of 7\u00a0?.?mm leave nothing inside/);
    expect(() => svg({ radius: 8 })).toThrow(/radius 8.mm is more than half/);
    expect(() => svg({ lower: 15 })).toThrow(/lower half \(15.mm\) is as high as the whole case/);
    expect(() => svg({ boardWidth: 33 })).toThrow(/board and cell do not fit between the side walls/);
    expect(() => svg({ deflection: 0 })).toThrow("deflection is 0 mm; it must be a positive size in mm");
  });
});
