import { inflateRawSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { inline, packed } from "../../lib/document/policy";
import { anchor, html } from "../../lib/document/text/html";
import { firstHeading, markdown } from "../../lib/document/text/markdown";
import { sanitiseMarkup } from "../../lib/document/text/sanitise-svg";
import { decimalPadding } from "../../lib/document/text/show";

describe("html", () => {
  it("escapes text and attributes, keeps markup of its own, drops what is absent", () => {
    expect(html`<a title="${'"<&'}">${"<b>"}${html`<i>x</i>`}${undefined}${null}${false}${["1", 2]}</a>`.text).toBe(
      '<a title="&quot;&lt;&amp;">&lt;b&gt;<i>x</i>12</a>',
    );
  });
  it("makes different anchors of different ids", () => {
    expect(anchor("node", "lamp.rail[low].R")).toBe("node-lamp.rail-5b-low-5d-.R");
    expect(anchor("a", "é b")).not.toMatch(/[^\w.-]/);
  });
});

describe("sanitiseMarkup", () => {
  it("keeps what draws and makes ids and references the figure's own", () => {
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg"><defs><clipPath id="c"><rect width="1"/></clipPath></defs><g clip-path="url(#c)"><text style="fill: red; position: fixed">µ &lt; 1</text></g></svg>';
    expect(sanitiseMarkup(svg, "f")).toBe(
      '<svg xmlns="http://www.w3.org/2000/svg"><defs><clipPath id="f-c"><rect width="1"/></clipPath></defs><g clip-path="url(#f-c)"><text fill="red">µ &lt; 1</text></g></svg>',
    );
  });
  it.each([
    ["<script>bad()</script>", ""],
    ["<svg><script/><g/></svg>", "<svg><g/></svg>"],
    ["<script><script></script>bad()</script>after", "after"],
    ["<svg onload=\"bad()\" fill='url(https://example.invalid)'></svg>", "<svg></svg>"],
    ['<use href="https://example.invalid#x"/>', "<use/>"],
    ['<use href="#x"/>', '<use href="#f-x"/>'],
    ["<foreignObject><p>bad</p></foreignObject>", ""],
    ["<image href='x'/><a href='javascript:bad()'>text</a>", "text"],
    ["<!-- <script>bad()</script> --><![CDATA[<script>]]>x", "x"],
    ['<g style="fill:url(javascript:bad())">&#60;script&#62;</g>', "<g>&lt;script&gt;</g>"],
    ["a < b", "a &lt; b"],
  ])("makes of %s %s", (given, expected) => {
    expect(sanitiseMarkup(given, "f")).toBe(expected);
  });
});

describe("markdown", () => {
  it("shows raw HTML as text and lets no script address through", () => {
    expect(markdown("a <b onclick=x>b</b>\n\n[c](javascript:d) ![e](http://example.invalid/f.png)").text).toBe(
      '<p>a &#x3C;b onclick=x>b&#x3C;/b></p>\n<p><a>c</a> <em class="missing">picture http://example.invalid/f.png: a document loads nothing from elsewhere; put the file beside the notebook</em></p>',
    );
  });
  it("typesets mathematics, in which Markdown's marks mean nothing", () => {
    const { text } = markdown("so $a_1 * b_2 * c$ and\n\n$$\\frac{a}{b}$$");
    expect(text).toContain("<msub><mi>a</mi><mn>1</mn></msub>");
    expect(text).toContain("<mfrac>");
    expect(text).not.toContain("<em>");
  });
  it("leaves prices and code alone", () => {
    expect(markdown("$5 and $6, `$x$`").text).toBe("<p>$5 and $6, <code>$x$</code></p>");
  });
  it("sinks headings by one level and gives their text", () => {
    expect(markdown("# A *b*").text).toBe("<h2>A <em>b</em></h2>");
    expect(firstHeading("text\n\n## A *b* ##")).toBe("A b");
  });
  it("keeps tables", () => {
    expect(markdown("| a |\n|---|\n| 1 |").text).toContain("<td>1</td>");
  });
});

describe("the inside of elements", () => {
  it("refuses a script that would end its element", () => {
    expect(() => inline("x = '</ScRipt>'", "script")).toThrow(/would end its element/);
    expect(() => inline("<!-- <script", "script")).toThrow(/would end its element/);
    expect(inline("a < b", "script")).toBe("a < b");
  });
  it("writes data that no parser reads as markup", () => {
    const value = { a: "</script><!--\u2028" };
    expect(packed(JSON.stringify(value))).toMatch(/^[A-Za-z0-9+/=]+$/);
    expect(JSON.parse(inflateRawSync(Buffer.from(packed(JSON.stringify(value)), "base64")).toString())).toEqual(value);
  });
});

describe("decimalPadding", () => {
  it("pads so that points stand above one another, and leaves words alone", () => {
    expect(decimalPadding(["2", "2.01", "−12.5", "–"])).toEqual(["\u2008\u2007\u2007", "", "\u2007", ""]);
    expect(decimalPadding(["1", "20"])).toEqual(["", ""]);
  });
});
