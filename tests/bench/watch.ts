/** How long a reader waits in `workings watch`: from saving a given to the page that shows it. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { chromium, type Page } from "playwright-core";
import { editGiven } from "../design/edit-design";
import { median } from "./measure";
import { cli, copyBook, workings } from "./place";
import type { Row } from "./row";

const chromiumPath = "/usr/bin/chromium";
/** A given that the sheet of the indicators alone reads. */
const given = "indicators.distance";

export async function watchRows(): Promise<Row[]> {
  const title = "workings watch: from saving a given that one sheet reads to the changed page";
  if (!existsSync(chromiumPath)) return [{ title, unit: "s", times: [], criteria: [], notes: ["Chromium is not installed here"] }];
  const folder = copyBook("watch");
  workings(folder, "run");
  const command = spawn(process.execPath, [cli, "watch"], { cwd: folder, stdio: ["ignore", "pipe", "inherit"] });
  const browser = await chromium.launch({ executablePath: chromiumPath, args: ["--no-sandbox", "--disable-gpu"] });
  try {
    const [said] = (await once(command.stdout, "data")) as [Buffer];
    const page = await browser.newPage();
    await page.goto(said.toString().split("\n")[0] ?? "");
    const waits: number[] = [];
    for (let turn = 0; turn < 6; turn++) waits.push(await saving(page, join(folder, "data/bittern/design.yaml"), turn));
    // The first edit pays for what the engine has not compiled yet.
    const seconds = median(waits.slice(1));
    const limit = { what: "time to the changed page", measured: seconds, limit: 2, is: "at most", unit: "s" } as const;
    return [{ title, unit: "s", times: [{ name: "saved, run, shown", seconds }], criteria: [limit], notes: [] }];
  } finally {
    await browser.close();
    command.kill("SIGINT");
    await once(command, "exit");
  }
}

/** Seconds until the page, loaded anew, has the new value in its field. */
async function saving(page: Page, design: string, turn: number): Promise<number> {
  const value = `0.${51 + turn} m`;
  const text = editGiven(readFileSync(design, "utf8"), given, value);
  const field = page.locator(`[data-field="${given}"] input.field`).first();
  const begun = performance.now();
  writeFileSync(design, text);
  while ((await field.inputValue({ timeout: 1_000 }).catch(() => "")) !== value)
    if (performance.now() - begun > 120_000) throw new Error(`the page does not show ${given} as ${value}`);
  return (performance.now() - begun) / 1000;
}
