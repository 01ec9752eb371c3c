/** Sampled numbers must be the same in Node and in the page: so must the functions behind the distributions. */
import { createHash } from "node:crypto";
import { resolve } from "node:path";
import { buildSync } from "esbuild";
import { describe, expect, it } from "vitest";
import { noChromium, sharedBrowser } from "../document/browser";
import { bitsOf, distributionValues } from "./distribution-values";

describe("the functions behind the distributions", () => {
  it("give known bits, in this and every other version of Node", () => {
    const hash = createHash("sha256").update(bitsOf(distributionValues())).digest("hex").slice(0, 16);
    expect(hash).toMatchInlineSnapshot(`"a4d98ee91ad6f9db"`);
  });

  it.skipIf(noChromium)("give the same bits in Chromium (skipped where there is none)", { timeout: 60_000 }, async () => {
    const entryPoints = [resolve(__dirname, "distribution-values.ts")];
    const bundled = buildSync({ entryPoints, bundle: true, format: "iife", globalName: "theirs", write: false }).outputFiles[0]?.text;
    const browser = await sharedBrowser();
    const page = await browser.newPage();
    await page.addScriptTag({ content: bundled ?? "" });
    const bits = await page.evaluate<string>("theirs.bitsOf(theirs.distributionValues())");
    expect(bits === bitsOf(distributionValues())).toBe(true);
  });
});
