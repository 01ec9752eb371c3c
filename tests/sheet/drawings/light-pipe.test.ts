import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { drawingNamed } from "../../../lib/sheet/drawings/registry";
import { fontSize, pageStyle, paperStyle, textWidth } from "../../../lib/sheet/drawings/svg";

const millimetre = 1e-3;
const degree = Math.PI / 180;

function svg(length: number, diameter: number, wall = 2, gap = 2, viewing = 60): string {
  const sizes = {
    length: length * millimetre,
    diameter: diameter * millimetre,
    wall: wall * millimetre,
    gap: gap * millimetre,
    viewing: viewing * degree,
  };
  return drawingNamed("light.pipe").draw(sizes, pageStyle);
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

describe("drawing light.pipe", () => {
  it("draws the pipe of a usual indicator as before", async () => {
    const usual = { length: 6e-3, diameter: 2e-3, wall: 2e-3, gap: 2e-3, viewing: 60 * degree };
    await expect(`${drawingNamed("light.pipe").draw(usual, paperStyle)}\n`).toMatchFileSnapshot("light-pipe.svg");
  });

  it("states every size it was given, and the cone the pipe accepts", () => {
    const texts = labels(svg(6.5, 2.2, 1.8, 1.9, 55))
      .map(({ content }) => content.replace("\u00a0", " "))
      .join("; ");
    for (const value of ["6.5 mm", "⌀ 2.2 mm", "1.8 mm", "1.9 mm"]) expect(texts).toContain(value);
    expect(texts).toMatch(/(^|; )55 ?°/);
    expect(texts).toMatch(/accepted cone 60\.1 ?°/);
  });

  it("draws the pipe's length and diameter to the scale of its bar", () => {
    const markup = svg(8, 3);
    const pipe = [...markup.matchAll(/<rect x="[^"]+" y="[^"]+" width="([^"]+)" height="([^"]+)"/g)].map(([, w, h]) => [
      Number(w),
      Number(h),
    ]);
    const [, bar] = /M16 [\d.]+ L[\d.]+ [\d.]+ L([\d.]+) /.exec(markup) ?? [];
    const pxPerMillimetre = ((Number(bar) - 16) * 2) / 2; // half of the bar is drawn first; its value is 2 mm
    expect(labels(markup).map(({ content }) => content.replace("\u00a0", " "))).toContain("2 mm");
    expect(pipe.some(([w = 0, h = 0]) => Math.abs(w / h - 8 / 3) < 1e-3 && Math.abs(w / 8 - pxPerMillimetre) < 0.01)).toBe(true);
  });

  it("keeps its labels apart and inside the drawing for all plausible sizes", () => {
    const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(size(2, 20), size(1, 5), size(0.8, 2), size(0.1, 4), size(10, 175), (length, diameter, wall, gap, viewing) => {
        const markup = svg(length, diameter, wall, gap, viewing);
        const boxes = labels(markup);
        const [, width = "0", height = "0"] = /viewBox="0 0 (\S+) (\S+)"/.exec(markup) ?? [];
        expect(boxes.length).toBe(12);
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

  it("keeps its labels apart at the corners of what is plausible", () => {
    for (const length of [2, 20])
      for (const diameter of [1, 5])
        for (const gap of [0.1, 4])
          for (const viewing of [10, 175]) {
            expect(overlapping(labels(svg(length, diameter, 2, gap, viewing)))).toEqual([]);
          }
  });

  it("has a name and a description, no ids, no inline style, and no number that is not finite", () => {
    const markup = svg(6, 2);
    expect(markup).toContain("<title>Light pipe in section</title><desc>To scale: a light pipe 6");
    expect(markup).toContain('role="img"');
    expect(markup).not.toMatch(/ id=| style=|NaN|Infinity|undefined/);
  });

  it("takes its colours from the style: the page's own, or ink on paper", () => {
    expect(svg(6, 2)).toContain('stroke="currentColor"');
    const paper = drawingNamed("light.pipe").draw({ length: 6e-3, diameter: 2e-3, wall: 2e-3, gap: 2e-3, viewing: 1 }, paperStyle);
    expect(paper).toContain('fill="#ffffff"');
    expect(paper).not.toContain("currentColor");
  });

  it("refuses a size that is missing, zero or not a number, naming it", () => {
    expect(() => svg(0, 2)).toThrow("drawing light.pipe: length is 0 mm; it must be a positive size in mm");
    expect(() => svg(6, Number.NaN)).toThrow(/diameter is NaN mm/);
    expect(() => drawingNamed("light.pipe").draw({ length: 6e-3 }, pageStyle)).toThrow(/diameter is missing/);
  });

  it("refuses a wall that reaches the LED, and light that would leave backwards", () => {
    expect(() => svg(2, 1, 3, 0.5)).toThrow(/wall is thicker than pipe and gap together/);
    expect(() => svg(6, 2, 2, 2, 190)).toThrow(/at most 180°/);
  });
});

describe("drawingNamed(name)", () => {
  it("names the drawings there are when there is none of that name", () => {
    expect(() => drawingNamed("light.tube")).toThrow(
      "no drawing is called 'light.tube'; there is board.return, board.stack, charging.path, esd.path, enclosure.section, heat.ways, light.pipe",
    );
  });
});
