/** The document on paper: printed by the Chromium that is installed, if one is. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { WorkingsError } from "../quantity/error";

const programs = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const limit = 180_000;

/** Bytes of the PDF of an HTML file. Throws WorkingsError "usage" where no such browser is on the PATH, or it does not print. */
export function printPdf(html: string): Uint8Array {
  const program = programs.find((name) => spawnSync(name, ["--version"], { stdio: "ignore" }).status === 0);
  if (program === undefined) {
    throw new WorkingsError(
      "usage",
      `a PDF is printed by Chromium, and none of ${programs.join(", ")} is on the PATH; install it (Debian: apt-get install chromium), or print the document from a browser`,
    );
  }
  const folder = mkdtempSync(join(tmpdir(), "workings-pdf-"));
  try {
    const target = join(folder, "book.pdf");
    const args = [
      "--headless",
      "--disable-gpu",
      "--no-pdf-header-footer",
      // A browser of the administrator's refuses its own sandbox; the document holds nothing that it would have to guard against.
      ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
      `--user-data-dir=${join(folder, "profile")}`,
      `--print-to-pdf=${target}`,
      // On paper nothing can be unfolded.
      `${pathToFileURL(html).href}#front?show=workings`,
    ];
    const { status, stderr } = spawnSync(program, args, { encoding: "utf8", timeout: limit, stdio: ["ignore", "ignore", "pipe"] });
    if (status !== 0)
      throw new WorkingsError("usage", `${program} did not print the document: ${lastLine(stderr) || `exit code ${status}`}`);
    return readFileSync(target);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function lastLine(text: string): string {
  return text.trim().split("\n").at(-1) ?? "";
}
