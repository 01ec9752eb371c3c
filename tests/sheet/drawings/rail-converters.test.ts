/** The drawing of the rails: every value shown, the stored picture, no overlap of texts. */
import { describe, expect, it } from "vitest";
import { drawingNamed } from "../../../lib/sheet/drawings/registry";
import { paperStyle, textWidth } from "../../../lib/sheet/drawings/svg";

const values = {
  V_in: 3.7,
  V_p: 4.5,
  V_m: 4.45,
  L: 4.7e-6,
  f_b: 132.4e3,
  f_i: 745e3,
  C: 10.1e-6,
  L_f: 2.2e-6,
  C_d: 47e-6,
  I_s: 5.6e-3,
};
const drawn = (more: Partial<typeof values> = {}) => drawingNamed("rails.converters").draw({ ...values, ...more }, paperStyle);
const plain = (svg: string) => svg.replaceAll(/[\u00a0\u202f\u2009]/g, " ");

describe("rails.converters", () => {
  it("is the stored picture", async () => {
    await expect(drawn()).toMatchFileSnapshot("rail-converters.svg");
  });

  it("writes each of its values", () => {
    const shown = [...plain(drawn()).matchAll(/<text[^>]*>([^<]*)</g)].map(([, words]) => words);
    const all = ["3.7 V", "+4.5 V", "−4.45 V", "4.7 µH each", "at 132 kHz", "at 745 kHz", "10.1 µF", "2.2 µH", "47 µF", "5.6 mA"];
    for (const value of all) expect(shown).toContain(value);
  });

  it("keeps its texts apart, also long ones", () => {
    for (const svg of [drawn(), drawn({ f_b: 1.2345e6, C: 123.4e-6, L_f: 0.1234e-6, C_d: 123.4e-6, I_s: 12.34e-3 })]) {
      const all = [...plain(svg).matchAll(/<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g)].map(
        ([, x, y, anchor, words = ""]) => {
          const w = textWidth(words);
          const left = Number(x) - (anchor === "middle" ? w / 2 : anchor === "end" ? w : 0);
          return { words, left, right: left + w, y: Number(y) };
        },
      );
      for (const [k, a] of all.entries())
        for (const b of all.slice(k + 1))
          expect(Math.abs(a.y - b.y) >= 12 || a.right < b.left || b.right < a.left, `${a.words} and ${b.words}`).toBe(true);
    }
  });

  it("refuses a rate that is not there", () => {
    expect(() => drawn({ f_b: 0 })).toThrow("f_b is 0");
  });
});
