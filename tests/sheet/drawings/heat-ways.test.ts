/** The drawing of the ways of the heat: every value shown, the stored picture, no overlap of texts. */
import { describe, expect, it } from "vitest";
import { drawingNamed } from "../../../lib/sheet/drawings/registry";
import { paperStyle, textWidth } from "../../../lib/sheet/drawings/svg";

const values = { T_a: 303.15, T_m: 308.02, T_t: 309.4, T_c: 309.5, P_c: 0.115, P_i: 0.0216, P_w: 0.0955, P_v: 0.106, P_r: 0.126 };
const drawn = (more: Partial<typeof values> = {}) => drawingNamed("heat.ways").draw({ ...values, ...more }, paperStyle);
const plain = (svg: string) => svg.replaceAll(/[\u00a0\u202f\u2009]/g, " ");

describe("heat.ways", () => {
  it("is the stored picture", async () => {
    await expect(drawn()).toMatchFileSnapshot("heat-ways.svg");
  });

  it("writes each of its nine values", () => {
    const shown = [...plain(drawn()).matchAll(/<text[^>]*>([^<]*)</g)].map(([, words]) => words).join("; ");
    for (const value of [
      "air 30 °C",
      "surface 34.9 °C",
      "place 36.3 °C",
      "36.4 °C",
      "charger 115 mW",
      "21.6 mW",
      "95.5 mW",
      "convection 106 mW",
      "radiation 126 mW",
    ])
      expect(shown).toContain(value);
  });

  it("keeps its texts apart and inside the picture, also long ones", () => {
    for (const svg of [drawn(), drawn({ P_c: 1.2345, P_i: 1.2345, P_w: 1.2345, P_v: 1.2345, P_r: 1.2345, T_t: 345.67 })]) {
      const all = [...plain(svg).matchAll(/<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g)].map(
        ([, x, y, anchor, words = ""]) => {
          const wide = textWidth(words);
          const left = Number(x) - (anchor === "middle" ? wide / 2 : anchor === "end" ? wide : 0);
          return { words, left, right: left + wide, y: Number(y) };
        },
      );
      for (const [k, a] of all.entries()) {
        expect(a.left >= 0 && a.right <= 660, a.words).toBe(true);
        for (const b of all.slice(k + 1))
          expect(Math.abs(a.y - b.y) >= 12 || a.right < b.left || b.right < a.left, `${a.words} and ${b.words}`).toBe(true);
      }
    }
  });

  it("refuses a heat that is not there", () => {
    expect(() => drawn({ P_c: 0 })).toThrow("P_c is 0");
  });
});
