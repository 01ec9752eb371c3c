/** The drawing of the power path while charging: every value shown, the stored picture, no overlap of texts. */
import { describe, expect, it } from "vitest";
import { drawingNamed } from "../../../lib/sheet/drawings/registry";
import { paperStyle, textWidth } from "../../../lib/sheet/drawings/svg";

const values = { V_in: 5, I_s: 0.329, I: 0.2, V_cv: 4.2, P_h: 0.115, P: 0.609 };
const drawn = (more: Partial<typeof values> = {}) => drawingNamed("charging.path").draw({ ...values, ...more }, paperStyle);
const plain = (svg: string) => svg.replaceAll(/[\u00a0\u202f\u2009]/g, " ");

describe("charging.path", () => {
  it("is the stored picture", async () => {
    await expect(drawn()).toMatchFileSnapshot("charging-path.svg");
  });

  it("writes each of its six values", () => {
    const shown = [...plain(drawn()).matchAll(/<text[^>]*>([^<]*)</g)].map(([, words]) => words);
    for (const value of ["5 V", "329 mA", "200 mA", "up to 4.2 V", "heat 115 mW", "609 mW"]) expect(shown).toContain(value);
  });

  it("keeps its texts apart, also long ones", () => {
    for (const svg of [drawn(), drawn({ I_s: 1.2345, I: 0.98765, P: 1.2345 })]) {
      const all = [...plain(svg).matchAll(/<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g)].map(
        ([, x, y, anchor, words = ""]) => {
          const left = Number(x) - (anchor === "middle" ? textWidth(words) / 2 : 0);
          return { words, left, right: left + textWidth(words), y: Number(y) };
        },
      );
      for (const [k, a] of all.entries())
        for (const b of all.slice(k + 1))
          expect(Math.abs(a.y - b.y) >= 12 || a.right < b.left || b.right < a.left, `${a.words} and ${b.words}`).toBe(true);
    }
  });

  it("refuses a current that is not there", () => {
    expect(() => drawn({ I: 0 })).toThrow("I is 0");
  });
});
