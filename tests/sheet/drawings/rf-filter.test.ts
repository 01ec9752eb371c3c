/** The drawing of a jack's filter: every value shown, the stored picture, no overlap of texts. */
import { describe, expect, it } from "vitest";
import { drawingNamed } from "../../../lib/sheet/drawings/registry";
import { pageStyle, paperStyle, textWidth } from "../../../lib/sheet/drawings/svg";

const values = {
  C_1: 15e-12,
  ESR_1: 0.2,
  ESL_1: 0.9e-9,
  L: 0.9e-6,
  R_dc: 0.35,
  R_p: 1100,
  C_p: 0.15e-12,
  C_2: 220e-12,
  ESR_2: 0.1,
  ESL_2: 0.4e-9,
};
const drawn = (more: Partial<typeof values> = {}) => drawingNamed("rf.filter").draw({ ...values, ...more }, paperStyle);
const texts = (svg: string) =>
  [...svg.replaceAll(/[\u00a0\u202f\u2009]/g, " ").matchAll(/<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g)].map(
    ([, x, y, anchor, content = ""]) => {
      const [at, w] = [Number(x), textWidth(content)];
      return {
        content,
        left: at - (anchor === "middle" ? w / 2 : anchor === "end" ? w : 0),
        right: at + (anchor === "start" ? w : w / 2),
        y: Number(y),
      };
    },
  );

describe("rf.filter", () => {
  it("is the stored picture", async () => {
    await expect(drawn()).toMatchFileSnapshot("rf-filter.svg");
  });

  it("writes each of its ten values beside its element", () => {
    const shown = texts(drawn()).map(({ content }) => content);
    for (const value of ["15 pF", "0.2 Ω", "0.9 nH", "0.9 µH", "0.35 Ω", "1100 Ω", "0.15 pF", "220 pF", "0.1 Ω", "0.4 nH"])
      expect(shown).toContain(value);
  });

  it("lets no two texts overlap, short or long", () => {
    const long = { L: 123.4e-6, R_p: 98765, C_p: 1.234e-12, R_dc: 0.1234 };
    for (const svg of [drawn(), drawn(long)]) {
      const all = texts(svg);
      for (const [k, a] of all.entries())
        for (const b of all.slice(k + 1))
          expect(Math.abs(a.y - b.y) >= 12 || a.right < b.left || b.right < a.left, `${a.content} and ${b.content}`).toBe(true);
    }
  });

  it("tells what comes unasked by a broken outline as well as by colour", () => {
    expect(drawn().match(/stroke-dasharray/g)).toHaveLength(7);
    expect(drawingNamed("rf.filter").draw(values, pageStyle)).toContain("var(--drawing-accent");
  });

  it("refuses a part that is not there", () => {
    expect(() => drawn({ C_1: 0 })).toThrow("C_1 is 0 pF");
  });
});
