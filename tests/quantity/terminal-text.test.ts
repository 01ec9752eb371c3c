import { describe, expect, it } from "vitest";
import { terminalText } from "../../lib/quantity/terminal-text";

describe("terminalText", () => {
  it("shows what a terminal would obey or reorder, and keeps everything else", () => {
    expect(terminalText("a\x1b[2Jb\x9b31m\rc\x7f\u202ed\u2066e\u061cf\u2028g\ud800h")).toBe(
      "a\\u001b[2Jb\\u009b31m\\u000dc\\u007f\\u202ed\\u2066e\\u061cf\\u2028g\\ud800h",
    );
    const plain = "4.7 kΩ ±1 %\tR₁ → été 日本語 שלום مرحبا 👩‍🔬\n";
    expect(terminalText(plain)).toBe(plain);
  });

  it("leaves a JSON text with the same meaning", () => {
    const value = { name: "\x1b]0;title\x07\u202eabc\u2029", "\x9b": ["\ufeff", "\ud800"] };
    const text = terminalText(JSON.stringify(value, null, 1));
    expect(text).not.toMatch(/(?!\n)\p{Cc}|\p{Bidi_Control}/u);
    expect(JSON.parse(text)).toEqual(value);
  });

  it("covers every control character and every mark of direction that Unicode knows", () => {
    const all = Array.from({ length: 0x10000 }, (_, code) => String.fromCharCode(code));
    const obeyed = all.filter((character) => /[\p{Cc}\p{Bidi_Control}]/u.test(character) && !"\n\t".includes(character));
    expect(obeyed.length).toBeGreaterThan(70);
    expect(obeyed.filter((character) => terminalText(character) === character)).toEqual([]);
  });
});
