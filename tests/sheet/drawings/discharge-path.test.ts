/** The drawing of a discharge's way: every value shown, the stored picture, no overlap of texts, all inside. */
import { describe, expect, it } from "vitest";
import { drawingNamed } from "../../../lib/sheet/drawings/registry";
import { paperStyle, textWidth } from "../../../lib/sheet/drawings/svg";

const values = {
  U: 15e3,
  I_p: 56,
  V_j: 42.7,
  L_st: 0.5e-9,
  V_br: 5.5,
  R_dyn: 0.12,
  E_cl: 17.1e-6,
  L: 0.9e-6,
  L_sat: 80e-9,
  R: 4.7,
  E_R: 0.65e-6,
  I_pin: 1.1,
  I_max: 2,
};
const drawn = (more: Partial<typeof values> = {}) => drawingNamed("esd.path").draw({ ...values, ...more }, paperStyle);
const texts = (svg: string) =>
  [...svg.replaceAll(/[\u00a0\u202f\u2009]/g, " ").matchAll(/<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g)].map(
    ([, x, y, anchor, content = ""]) => {
      const [at, w] = [Number(x), textWidth(content)];
      const left = at - (anchor === "middle" ? w / 2 : anchor === "end" ? w : 0);
      return { content, left, right: left + w, y: Number(y) };
    },
  );

describe("esd.path", () => {
  it("is the stored picture", async () => {
    await expect(drawn()).toMatchFileSnapshot("discharge-path.svg");
  });

  it("writes each of its thirteen values in its block", () => {
    const shown = texts(drawn())
      .map(({ content }) => content)
      .join("; ");
    for (const value of [
      "15 kV",
      "56 A",
      "43 V",
      "0.5 nH",
      "5.5 V",
      "0.12 Ω",
      "17 µJ",
      "0.9 µH",
      "80 nH",
      "4.7 Ω",
      "0.65 µJ",
      "1.1 A",
      "2 A",
    ])
      expect(shown).toContain(value);
  });

  it("lets no two texts overlap, nor one leave the picture, short or long", () => {
    for (const svg of [drawn(), drawn({ V_j: 123.4, V_br: 16.75, R_dyn: 1.234, I_pin: 0.1234, L_sat: 123.4e-9, E_R: 123e-6 })]) {
      const all = texts(svg);
      for (const [k, a] of all.entries()) {
        expect(a.left).toBeGreaterThan(0);
        expect(a.right).toBeLessThan(720);
        for (const b of all.slice(k + 1))
          expect(Math.abs(a.y - b.y) >= 12 || a.right < b.left || b.right < a.left, `${a.content} and ${b.content}`).toBe(true);
      }
    }
  });

  it("sets the strong way apart by its width as well as by its colour", () => {
    expect(drawn().match(/stroke-width="4"/g)).toHaveLength(5);
  });

  it("refuses a part that is not there", () => {
    expect(() => drawn({ R: 0 })).toThrow("R is 0 Ω");
  });
});
