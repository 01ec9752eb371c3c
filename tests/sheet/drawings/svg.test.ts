import { describe, expect, it } from "vitest";
import { callouts } from "../../../lib/sheet/drawings/callouts";
import { hatch } from "../../../lib/sheet/drawings/hatch";
import { drawing, element, number, pageStyle, text } from "../../../lib/sheet/drawings/svg";

describe("element(name, attributes, ...children)", () => {
  it("escapes attributes and leaves out undefined ones", () => {
    expect(element("rect", { fill: `"<&>'`, width: undefined, x: 1.006 })).toBe('<rect fill="&quot;&lt;&amp;&gt;&#39;" x="1.01"/>');
  });
});

describe("text(x, y, content, anchor, style)", () => {
  it("escapes what it is given", () => {
    expect(text(0, 0, "<script>alert('a & b')</script>", "start", pageStyle)).toContain(
      "&lt;script&gt;alert(&#39;a &amp; b&#39;)&lt;/script&gt;",
    );
  });
});

describe("drawing(width, height, title, description, style, body)", () => {
  it("escapes title and description", () => {
    const markup = drawing(10, 10, `<b>"`, "</desc><script>", pageStyle, "");
    expect(markup).toContain('aria-label="&lt;b&gt;&quot;"');
    expect(markup).toContain("<title>&lt;b&gt;&quot;</title><desc>&lt;/desc&gt;&lt;script&gt;</desc>");
  });
});

describe("drawing(…), stored", () => {
  it("has each mark in a line of its own, so that a diff shows which has changed", () => {
    const body = `<g stroke="red"><path d="M0 0"/><line x1="1"/></g>${text(1, 2, "<g", "start", pageStyle)}`;
    const [, ...lines] = drawing(10, 10, "T", "D", pageStyle, body).split("\n");
    expect(lines.map((line) => line.slice(0, 5))).toEqual(["<g st", "<path", "<line", "<text"]);
  });
});

describe("number(x)", () => {
  it("writes two decimals at most and no negative zero", () => {
    expect([1, 1.234567, -0.001, 0.1 + 0.2].map(number)).toEqual(["1", "1.23", "0", "0.3"]);
  });
});

describe("hatch(x, y, width, height)", () => {
  it("stays inside its rectangle", () => {
    const numbers = [...hatch(10, 20, 30, 50, {}).matchAll(/([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
    expect(numbers.length).toBeGreaterThan(10);
    for (const [x = 0, y = 0] of numbers) {
      expect(x >= 10 && x <= 40 && y >= 20 && y <= 70).toBe(true);
    }
  });
});

describe("callouts(items, …)", () => {
  it("keeps names in the order of their parts, apart, as near as may be", () => {
    const items = [
      { label: "second", x: 101, y: 0 },
      { label: "first", x: 100, y: 0 },
      { label: "far", x: 300, y: 0 },
    ];
    const markup = callouts(items, 20, 40, 0, 400, pageStyle);
    const placed = [...markup.matchAll(/<text x="([\d.]+)"[^>]*>(\w+)</g)].map(([, x, label]) => ({ x: Number(x), label }));
    expect(placed.map(({ label }) => label)).toEqual(["first", "second", "far"]);
    expect((placed[0]?.x ?? 0) + (placed[1]?.x ?? 0)).toBeGreaterThan(195);
    expect(placed[2]?.x).toBe(300);
  });
});
