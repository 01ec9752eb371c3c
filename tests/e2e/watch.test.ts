/** `workings watch` on a small book: edits in a row in Chromium, requests that it refuses, faults that it tells and recovers from, its end. */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from "node:fs";
import { request } from "node:http";
import { createRequire } from "node:module";
import { type AddressInfo, createServer } from "node:net";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import type { Browser, Page } from "playwright-core";
import { afterEach, beforeAll, describe, expect, it, onTestFinished } from "vitest";
import { noChromium, settled, sharedBrowser, state, turnTo, type } from "../document/browser";
import { inFull } from "../full";
import { cli } from "./commands";
import { design, FaultBook, healthy } from "./fault-book";

interface Watched {
  readonly address: string;
  /** All that it has said. */
  readonly said: () => string;
}

interface Started extends Watched {
  /** Its exit code, when it ends. */
  readonly ended: Promise<number>;
  readonly end: () => void;
}

setFlagsFromString("--expose-gc");
const collectGarbage = runInNewContext("gc") as () => void;

/** Before the folders of a test's books serve the next test. */
const ends: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0)) await end();
});

async function addressOf(said: () => string): Promise<string> {
  await expect.poll(said, { timeout: 60_000 }).toMatch(/^http:\S+\n/);
  return said().split("\n")[0] ?? "";
}

/** In the process of the test. */
async function start(book: FaultBook): Promise<Started> {
  const { start: command, streamsTo } = createRequire(cli)(cli) as typeof import("../../lib/cli/main");
  const interrupt = new AbortController();
  let text = "";
  const add = (more: string) => (text += more);
  const words = ["watch", "--book", book.file("notebooks/book.yaml")];
  const ended = command(words, streamsTo(add, add), { signal: interrupt.signal, watch: () => undefined });
  ends.push(async () => {
    interrupt.abort();
    await ended;
  });
  return { address: await addressOf(() => text), said: () => text, ended, end: () => interrupt.abort() };
}

/** In a process of its own, for signals. */
async function startProcess(book: FaultBook): Promise<Watched & { readonly process: ChildProcess }> {
  const child = spawn(process.execPath, [cli, "watch"], { cwd: book.folder });
  const ended = once(child, "exit");
  ends.push(async () => {
    child.kill("SIGKILL");
    await ended;
  });
  let text = "";
  for (const stream of [child.stdout, child.stderr]) stream.setEncoding("utf8").on("data", (more: string) => (text += more));
  return { process: child, address: await addressOf(() => text), said: () => text };
}

/** Status and body of a request written by hand: no browser's rules apply. */
function ask(address: string, headers: Readonly<Record<string, string>> = {}, method = "GET"): Promise<{ status: number; body: string }> {
  return new Promise((resolve, reject) => {
    const asked = request(address, { headers, method }, (answer) => {
      let body = "";
      answer.setEncoding("utf8").on("data", (text: string) => {
        body += text;
        // The events have no end.
        if (address.endsWith("events")) answer.destroy();
      });
      answer.on("close", () => resolve({ status: answer.statusCode ?? 0, body }));
    });
    asked.on("error", reject);
    asked.end();
  });
}

/** What the document says, without its programs. */
const text = async ({ address }: Watched) =>
  (await ask(address)).body.replace(/<(script|style|pre)\b.*?<\/\1>/gs, "").replaceAll("\u00a0", " ");
const problems = async ({ address }: Watched) => (await ask(`${address}events`)).body;
const withHigh = (volts: number | string) => design.replace("5 V ±2 %", `${volts} V ±2 %`);

describe("workings watch", { timeout: 180_000 }, () => {
  it("answers to its own address alone, and to no other site's page", async () => {
    const watched = await start(new FaultBook({ "01-lamp.ipynb": healthy("lamp") }));
    const { address } = watched;
    const { host, port, origin } = new URL(address);
    expect(host).toBe(`127.0.0.1:${port}`);
    await expect.poll(() => text(watched), { timeout: 60_000 }).toContain("<title>Test, revision A</title>");

    for (const events of ["", "events"]) {
      const own = `${address}${events}`;
      expect((await ask(own)).status).toBe(200);
      expect((await ask(own, { origin })).status).toBe(200);
      for (const other of [`evil.example:${port}`, "127.0.0.1", `127.0.0.1:${port}.evil.example`, `localhost:${port}`])
        expect(await ask(own, { host: other }), other).toMatchObject({ status: 403, body: expect.not.stringContaining("Test") });
      for (const other of ["https://evil.example", "null", `http://localhost:${port}`, "http://127.0.0.1:1"])
        expect(await ask(own, { origin: other }), other).toMatchObject({ status: 403, body: expect.not.stringContaining("Test") });
      const tokens = ["", "x/", `${address.split("/")[3]?.slice(1)}/`, `${address.split("/")[3]}x/`];
      for (const token of tokens) expect((await ask(`${origin}/${token}${events}`)).status, token).toBe(403);
    }
    expect((await ask(address, {}, "POST")).status).toBe(405);
    expect((await ask(`${address}../lamp`)).status).toBe(403);
    expect((await ask(`${address}design.yaml`)).status).toBe(404);
  });

  it("refuses a port that another program has, in a sentence", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp") });
    const other = createServer().listen(0, "127.0.0.1");
    onTestFinished(() => void other.close());
    await once(other, "listening");
    const { port } = other.address() as AddressInfo;
    expect(await book.workings("watch", "--port", String(port))).toMatchObject({
      status: 2,
      stderr: `cannot serve on 127.0.0.1, port ${port}: another program listens there; name another --port, or none for a free one\n`,
    });
  });

  it("tells what is wrong, shows the last good document meanwhile, and recovers", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp") });
    const watched = await start(book);
    await expect.poll(() => text(watched), { timeout: 60_000 }).toContain("10 mW");

    book.write("data/design.yaml", design.replace("value: 5 V", "value: 5 parsnips"));
    await expect.poll(() => problems(watched), { timeout: 30_000 }).toContain("parsnips");
    expect(await problems(watched)).toContain("Below is the last document that could be made.");
    expect(await text(watched)).toContain("10 mW");
    expect(watched.said()).toContain("data/design.yaml:5:20: value of given 'high'");

    // A folder in the place of the file, and the file again by a rename, as editors save.
    rmSync(book.file("data/design.yaml"));
    mkdirSync(book.file("data/design.yaml"));
    await expect.poll(() => problems(watched), { timeout: 30_000 }).toContain("cannot read the design file data/design.yaml");
    rmSync(book.file("data/design.yaml"), { recursive: true });
    book.write("data/.design.yaml.swp", withHigh(6));
    renameSync(book.file("data/.design.yaml.swp"), book.file("data/design.yaml"));
    await expect.poll(() => text(watched), { timeout: 30_000 }).toContain("12 mW");
    expect(await problems(watched)).toContain('"isGood":true');

    // A cell that fails: the other sheets go on, and this one's outputs are stamped.
    book.sheet("02-fan.ipynb", ...healthy("fan"));
    book.list("01-lamp.ipynb", "02-fan.ipynb");
    await expect.poll(() => text(watched), { timeout: 30_000 }).toContain('id="sheet-fan"');
    book.edit("02-fan.ipynb", (cell, index) => (index === 0 ? cell : { ...cell, source: cell.source.replace("V*I", "V+I") }));
    book.write("data/design.yaml", withHigh(7));
    await expect.poll(() => text(watched), { timeout: 30_000 }).toContain("14 mW");
    await expect.poll(() => problems(watched), { timeout: 30_000 }).toContain("fan failed");
    expect(await problems(watched)).toContain("02-fan.ipynb, cell 2");
    expect(await text(watched)).toContain("Not of the present design and cells");

    // The sheet leaves the book.
    book.list("01-lamp.ipynb");
    await expect.poll(() => problems(watched), { timeout: 30_000 }).toContain('"isGood":true');
    expect(await text(watched)).not.toContain('id="sheet-fan"');
    expect(watched.said()).toContain("nothing is wrong any more");
  });

  it("runs again for what is saved while a run goes on, several files at once among them", async () => {
    const slow = "await new Promise((resume) => setTimeout(resume, 1_500));";
    const book = new FaultBook({ "01-lamp.ipynb": [...healthy("lamp"), slow], "02-fan.ipynb": healthy("fan") });
    const watched = await start(book);
    await expect.poll(() => text(watched), { timeout: 60_000 }).toContain("10 mW");
    book.write("data/design.yaml", withHigh(6));
    await expect.poll(() => book.has("build/run.lock"), { timeout: 30_000, interval: 5 }).toBe(true);
    book.write("data/design.yaml", withHigh(7));
    book.write("notebooks/book.yaml", book.read("notebooks/book.yaml").replace("title: Test", "title: Seven"));
    book.sheet("02-fan.ipynb", ...healthy("fan"), "// saved while the lamp ran");
    await expect.poll(() => text(watched), { timeout: 60_000 }).toContain("14 mW");
    await expect.poll(() => problems(watched), { timeout: 60_000 }).toContain('"Up to date"');
    expect(await text(watched)).toContain("<title>Seven, revision A</title>");
    expect(book.notebook("02-fan.ipynb").cells).toHaveLength(3);
    expect(book.hasRun("02-fan.ipynb")).toBe(true);
    expect(await Promise.race([watched.ended, "goes on"])).toBe("goes on");
  });

  it("waits in a sentence while another command runs the book, and then goes on", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp") });
    const holder = spawn(process.execPath, ["-e", "setTimeout(() => undefined, 60_000)"]);
    onTestFinished(() => void holder.kill("SIGKILL"));
    const begun = readFileSync(`/proc/${holder.pid}/stat`, "utf8")
      .replace(/^.*\) /s, "")
      .split(" ")[19];
    book.write("build/run.lock", JSON.stringify({ pid: holder.pid, begun }));
    const watched = await start(book);
    await expect.poll(() => problems(watched), { timeout: 30_000 }).toContain(`process ${holder.pid} is running this book`);
    // Node 20 loses the timeout of AbortSignal.any with the garbage, and then waits for ever.
    const until = performance.now() + 1_500;
    while (performance.now() < until) {
      collectGarbage();
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    holder.kill("SIGKILL");
    await expect.poll(() => text(watched), { timeout: 60_000 }).toContain("10 mW");
    expect(await problems(watched)).toContain('"isGood":true');
  });

  it("breathes between the runs of a sheet that makes itself stale, and says which file it is", async () => {
    const restless = `import { appendFileSync, readFileSync } from "node:fs";\ntry {\n  readFileSync("log.txt");\n} catch {}\nappendFileSync("log.txt", "x");`;
    const book = new FaultBook({ "01-lamp.ipynb": [...healthy("lamp"), restless] });
    const watched = await start(book);
    await expect.poll(() => problems(watched), { timeout: 60_000 }).toContain("notebooks/log.txt: a cell that writes such a file");
    const length = () => book.read("notebooks/log.txt").length;
    const before = length();
    await new Promise((resolve) => setTimeout(resolve, 3_000));
    expect(length()).toBeLessThanOrEqual(before + 1);
  });

  it.each((["SIGINT", "SIGTERM"] as const).slice(0, inFull(2, 1)))(
    "ends on %s with its server, its kernel and its lock, and tells the page",
    async (signal) => {
      const book = new FaultBook({ "01-lamp.ipynb": [...healthy("lamp"), "for (;;) {}"] });
      const watched = await startProcess(book);
      const child = () => childrenOf(watched.process.pid ?? 0);
      await expect.poll(child, { timeout: 60_000 }).toHaveLength(1);
      await expect.poll(() => book.has("build/run.lock"), { timeout: 60_000 }).toBe(true);
      const [kernel] = child();
      const page = ask(watched.address);
      await page;
      watched.process.kill(signal);
      const [status] = await once(watched.process, "exit");
      expect(status).toBe(signal === "SIGINT" ? 130 : 143);
      expect(book.has("build/run.lock")).toBe(false);
      await expect.poll(() => isRunning(kernel ?? 0)).toBe(false);
      await expect(ask(watched.address)).rejects.toThrow("ECONNREFUSED");
      expect(readdirSync(book.file("notebooks")).sort()).toEqual(["01-lamp.ipynb", "book.yaml"]);
    },
  );
});

function childrenOf(pid: number): number[] {
  const numbers = readdirSync("/proc").filter((name) => /^\d+$/.test(name));
  return numbers.map(Number).filter((one) => statOf(one)?.[1] === String(pid));
}

const isRunning = (pid: number) => !["Z", undefined].includes(statOf(pid)?.[0]);

/** State and parent, and what follows. */
function statOf(pid: number): string[] | undefined {
  try {
    return readFileSync(`/proc/${pid}/stat`, "utf8")
      .replace(/^.*\) /s, "")
      .split(" ");
  } catch {
    return undefined;
  }
}

describe.skipIf(noChromium)("the page of workings watch", { timeout: 240_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await sharedBrowser();
  });

  const words = async (page: Page, selector = "header, main, .watch") =>
    (await page.locator(selector).allTextContents()).join("\n").replaceAll("\u00a0", " ");
  /** A page that is being loaded anew has nothing to read for a moment. */
  const shown = (page: Page, wanted: string) => expect.poll(() => words(page).catch(() => ""), { timeout: 30_000 }).toContain(wanted);
  const upToDate = (page: Page) => expect.poll(() => words(page, ".watch").catch(() => ""), { timeout: 30_000 }).toBe("Up to date");

  it("shows edits in a row, with the reader's input and place kept", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp"), "02-fan.ipynb": healthy("fan") });
    const watched = await start(book);
    await expect.poll(() => text(watched), { timeout: 60_000 }).toContain("10 mW");
    const page = await browser.newPage({ viewport: { width: 900, height: 400 } });
    const said: string[] = [];
    page.on("console", (message) => said.push(message.text()));
    page.on("pageerror", (error) => said.push(error.message));
    await page.goto(watched.address);
    await settled(page);
    // The reader turns the current, opens a fold, and reads the second sheet.
    await type(page, "current", "3 mA");
    await settled(page);
    await shown(page, "15 mW");
    await turnTo(page, "#fan details");
    const fold = page.locator("#fan details").last();
    await fold.evaluate((details) => details.setAttribute("open", ""));
    const heading = page.locator("#sheet-fan");
    await heading.evaluate((element) => element.scrollIntoView());
    const top = () => heading.evaluate((element) => element.getBoundingClientRect().top);
    let place = await top();

    for (let edit = 1; edit <= inFull(20, 3); edit++) {
      const volts = 5 + edit;
      const next = withHigh(volts);
      if (edit % 3 === 0) {
        book.write("data/design.yaml~", next);
        renameSync(book.file("data/design.yaml~"), book.file("data/design.yaml"));
      } else book.write("data/design.yaml", next);
      if (edit % 4 === 2) {
        const list = `title: Test ${edit}\nrevision: "A"\ndesign: ../data/design.yaml\nworksheets:\n  - 01-lamp.ipynb\n  - 02-fan.ipynb\n`;
        book.write("notebooks/book.yaml", list);
      }
      await shown(page, `${volts * 3} mW`);
      if (edit % 4 === 2) await shown(page, `Test ${edit}`);
      await upToDate(page);
      expect((await state(page)).changes, `edit ${edit}`).toMatchObject({ givens: { current: { text: expect.stringContaining("3 mA") } } });
      // A scroll is rounded to whole pixels, another way each time that the lines above have another height.
      await expect.poll(async () => Math.abs((await top()) - place), { timeout: 10_000, message: `edit ${edit}` }).toBeLessThanOrEqual(1);
      place = await top();
    }
    expect(await page.locator(".page:not([hidden])").getAttribute("id")).toBe("fan");
    expect(await fold.getAttribute("open")).toBe("");
    expect(said).toEqual([]);
    await page.close();
  });

  it("keeps the document that a reader types in until the field is left", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp") });
    const watched = await start(book);
    await expect.poll(() => text(watched), { timeout: 60_000 }).toContain("10 mW");
    const page = await browser.newPage();
    await page.goto(watched.address);
    await settled(page);
    await turnTo(page, "input.field");
    const field = page.getByRole("textbox", { name: "current", exact: true }).first();
    await field.pressSequentially("4 mA");
    book.write("data/design.yaml", withHigh(6));
    await expect.poll(() => text(watched), { timeout: 30_000 }).toContain("12 mW");
    await upToDate(page);
    expect(await field.inputValue()).toContain("4 mA");
    await field.fill("4 mA");
    await field.press("Tab");
    await shown(page, "24 mW");
    await page.close();
  });

  it("says in the page what is wrong, first of all where no document can be made, and when the command has ended", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp") }, design.replace("5 V", "5 parsnips"));
    const watched = await start(book);
    const page = await browser.newPage();
    await page.goto(watched.address);
    await shown(page, "No document could be made yet.");
    await shown(page, "parsnips");
    book.write("data/design.yaml", design);
    await shown(page, "10 mW");
    book.write("data/design.yaml", design.replace("5 V", "5 leeks"));
    await shown(page, "Below is the last document that could be made.");
    await shown(page, "leeks");
    await shown(page, "10 mW");
    watched.end();
    await shown(page, "workings watch has ended.");
    await shown(page, "10 mW");
    await page.close();
  });
});

it("a published document fetches nothing and holds no program of the watch", async () => {
  const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp") });
  expect((await book.run()).status).toBe(0);
  expect((await book.workings("publish")).status).toBe(0);
  const document = book.read("build/lamp.html");
  expect(document).not.toContain("connect-src");
  expect(document).not.toContain("EventSource");
  expect(document.match(/<script/g)).toHaveLength(3);
});
