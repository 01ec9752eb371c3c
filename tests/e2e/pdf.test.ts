/** The document on paper, through the Chromium that is installed. */
import { execFileSync, spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { noChromium } from "../document/browser";
import { cli } from "./commands";
import { ranBook } from "./fault-book";

const noReader = spawnSync("pdftotext", ["-v"]).error !== undefined && process.env.CI !== "true";

describe("workings publish --pdf --csv", { timeout: 120_000 }, () => {
  it.skipIf(noChromium || noReader)(
    "prints every page with title, revision, content hash and number, and leaves the tables beside it",
    async () => {
      const book = await ranBook();
      const { status, stdout, stderr } = await book.workings("publish", "--pdf", "--csv");
      expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
      expect(stdout.split("\n").map((line) => line.split("  ")[0])).toEqual([
        "build/lamp.html",
        "build/lamp-givens.csv",
        "build/lamp-results.csv",
        "build/lamp-sensitivity.csv",
        "build/lamp-requirements.csv",
        "build/lamp-decisions.csv",
        "build/lamp-parts.csv",
        "build/lamp.pdf",
        "",
      ]);
      const pages = execFileSync("pdftotext", ["-layout", book.file("build/lamp.pdf"), "-"], { encoding: "utf8" })
        .split("\f")
        .slice(0, -1);
      const hash = /<dd>([0-9a-f]{12})<\/dd>/.exec(book.read("build/lamp.html"))?.[1];
      expect(hash).toBeDefined();
      pages.forEach((text, index) => {
        expect(text).toContain(`Test · revision A · content ${hash}`);
        expect(text).toMatch(new RegExp(`content ${hash} +${index + 1} ?/ ?${pages.length}\\s*$`));
      });
      expect(pages[0]).toContain("Requirements");
    },
  );

  it("says what is missing where there is no Chromium, and leaves the document", async () => {
    const book = await ranBook();
    const { status, stderr } = spawnSync(process.execPath, [cli, "publish", "--pdf"], {
      cwd: book.folder,
      env: { ...process.env, PATH: "" },
      encoding: "utf8",
    });
    expect(status).toBe(2);
    expect(stderr).toMatch(/^a PDF is printed by Chromium, and none of .* is on the PATH; install it/);
    expect(book.has("build/lamp.html")).toBe(true);
    expect(book.has("build/lamp.pdf")).toBe(false);
  });
});
