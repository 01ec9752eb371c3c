import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { delimiter, join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { bundle, scratch } from "../kernel/fixture";

const tools = scratch();
beforeAll(() => bundle(tools, { cli: "cli/main.ts", "kernel-child": "kernel/child.ts" }));

/** A book that is not one yet: its notebooks open all the same. */
function newBook(): string {
  const root = join(scratch(), "a book");
  mkdirSync(join(root, "notebooks"), { recursive: true });
  writeFileSync(join(root, "notebooks/book.yaml"), "title: [");
  return root;
}

interface Fake {
  readonly path: string;
  /** What the program was started with, apart from the questions for its version; undefined before it was. */
  readonly started: () => { args: string[]; folder: string; jupyterPath: string; ended?: string } | undefined;
}

/** A program that stands for Jupyter: it has some of its parts, notes how it is started, and then does as it is told. */
function fakeJupyter(name: string, parts: readonly string[], then: string): Fake {
  const path = scratch();
  const note = join(path, "note.json");
  const script = `#!${process.execPath}
const fs = require("fs");
const args = process.argv.slice(2);
const parts = ${JSON.stringify(parts)};
if (parts.length > 0 && !parts.includes(args[0])) process.exit(1);
if (args.includes("--version")) process.exit(0);
const note = { args, folder: process.cwd(), jupyterPath: process.env.JUPYTER_PATH };
const write = (more) => fs.writeFileSync(${JSON.stringify(note)}, JSON.stringify({ ...note, ...more }));
${then}
write({});
`;
  writeFileSync(join(path, name), script);
  chmodSync(join(path, name), 0o755);
  return { path, started: () => (existsSync(note) ? JSON.parse(readFileSync(note, "utf8")) : undefined) };
}

interface Call {
  readonly PATH?: string;
  readonly JUPYTER_PATH?: string;
}

function environment({ PATH = "", JUPYTER_PATH }: Call): NodeJS.ProcessEnv {
  const { JUPYTER_PATH: _, ...others } = process.env;
  return { ...others, PATH, HOME: join(tools, "no home"), ...(JUPYTER_PATH !== undefined && { JUPYTER_PATH }) };
}

function workings(folder: string, call: Call, ...words: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(tools, "cli.js"), ...words], {
    cwd: folder,
    env: environment(call),
    encoding: "utf8",
  });
  return { status, stdout, stderr };
}

describe("workings kernel", () => {
  it("registers the kernel in the book's build folder and says how to start Jupyter with it", () => {
    const root = newBook();
    const first = workings(root, {}, "kernel");
    expect(first).toMatchObject({ status: 0, stderr: "" });
    expect(first.stdout).toContain(`cd '${root}/notebooks' && JUPYTER_PATH='${root}/build/jupyter' jupyter lab\n`);
    const file = join(root, "build/jupyter/kernels/tslab/kernel.json");
    expect(JSON.parse(readFileSync(file, "utf8")).argv[1]).toBe(join(tools, "kernel-child.js"));
    expect(existsSync(join(tools, "no home"))).toBe(false);
    const again = workings(join(root, "notebooks"), {}, "kernel", "--json");
    expect(JSON.parse(again.stdout)).toEqual({
      ok: true,
      kernel: "tslab",
      file,
      jupyterPath: join(root, "build/jupyter"),
      notebooks: join(root, "notebooks"),
      changed: false,
    });
  });

  it("takes the book that is named, and refuses one that does not exist", () => {
    const root = newBook();
    for (const book of [root, join(root, "notebooks/book.yaml")])
      expect(JSON.parse(workings(tools, {}, "kernel", "--json", "--book", book).stdout)).toMatchObject({
        notebooks: join(root, "notebooks"),
      });
    expect(workings(tools, {}, "kernel", "--book", join(root, "none.yaml"))).toMatchObject({
      status: 2,
      stderr: `there is no book ${join(root, "none.yaml")}\n`,
    });
  });

  it("leaves no half-written file where it cannot write", () => {
    const root = newBook();
    writeFileSync(join(root, "build"), "a file");
    const { status, stderr } = workings(root, {}, "kernel");
    expect(status).toBe(2);
    expect(stderr).toContain("cannot write kernel.json: a part of the path is a file, not a folder");
  });
});

describe("workings lab", () => {
  it("without Jupyter says what to install", () => {
    const { status, stderr } = workings(newBook(), {}, "lab");
    expect(status).toBe(2);
    expect(stderr).toContain('none of "jupyter lab", "jupyter notebook", "jupyter-notebook" is on the PATH');
    expect(stderr).toContain("apt-get install jupyter-notebook");
    expect(stderr).toContain("pip install jupyterlab");
  });

  it.each([
    { has: "Jupyter Lab and the older notebook", program: "jupyter", parts: ["notebook", "lab"], args: ["lab"] },
    { has: "only the older notebook", program: "jupyter", parts: ["notebook"], args: ["notebook"] },
    { has: "only its own program", program: "jupyter-notebook", parts: [], args: [] },
  ])("starts what there is in the notebooks' folder, where the computer has $has", ({ program, parts, args }) => {
    const root = newBook();
    const fake = fakeJupyter(program, parts, "");
    const said = workings(root, { PATH: fake.path }, "lab", "--", "--no-browser", "03 é.ipynb");
    expect(said).toMatchObject({ status: 0, stderr: "" });
    expect(fake.started()).toEqual({
      args: [...args, "--no-browser", "03 é.ipynb"],
      folder: join(root, "notebooks"),
      jupyterPath: join(root, "build/jupyter"),
    });
    expect(existsSync(join(root, "build/jupyter/kernels/tslab/kernel.json"))).toBe(true);
  });

  it("puts its own kernel before those that JUPYTER_PATH names already", () => {
    const root = newBook();
    const fake = fakeJupyter("jupyter", ["lab"], "");
    workings(root, { PATH: fake.path, JUPYTER_PATH: "/elsewhere" }, "lab");
    expect(fake.started()?.jupyterPath).toBe([join(root, "build/jupyter"), "/elsewhere"].join(delimiter));
  });

  it("says that Jupyter ended with an error", () => {
    const fake = fakeJupyter("jupyter", ["lab"], "process.exitCode = 5;");
    expect(workings(newBook(), { PATH: fake.path }, "lab")).toMatchObject({
      status: 1,
      stderr: "jupyter lab ended with exit code 5; what it says above is the reason\n",
    });
  });

  it("ends Jupyter on Ctrl-C, and ends with it", async () => {
    // As Jupyter does: it asks back on SIGINT, and takes a moment to end its kernels on SIGTERM.
    const fake = fakeJupyter(
      "jupyter",
      ["lab"],
      `process.on("SIGINT", () => undefined);
process.on("SIGTERM", () => setTimeout(() => { write({ ended: "by SIGTERM" }); process.exit(0); }, 200));
setInterval(() => undefined, 1000);`,
    );
    const running = spawn(process.execPath, [join(tools, "cli.js"), "lab"], {
      cwd: newBook(),
      env: environment({ PATH: fake.path }),
      stdio: "ignore",
    });
    await expect.poll(fake.started, { timeout: 30_000 }).toBeDefined();
    running.kill("SIGINT");
    const [status] = await once(running, "exit");
    expect(status).toBe(130);
    expect(fake.started()?.ended).toBe("by SIGTERM");
  });
});
