import { describe, expect, it } from "vitest";
import { help, parseCommand } from "../../lib/cli/usage";

describe("parseCommand", () => {
  it("reads command, sheets and options", () => {
    expect(parseCommand(["run", "indicators", "--timeout", "2.5", "--json"])).toEqual({
      name: "run",
      words: ["indicators"],
      options: { json: true, all: false, timeout: 2500 },
    });
    expect(parseCommand(["publish", "--output=a b.html"])).toEqual({
      name: "publish",
      words: [],
      options: { json: false, all: false, output: "a b.html" },
    });
    expect(parseCommand(["lab", "--", "--no-browser", "a.ipynb"])).toMatchObject({ name: "lab", words: ["--no-browser", "a.ipynb"] });
    expect(parseCommand([]).name).toBe("help");
    expect(parseCommand(["check", "-h"]).name).toBe("help");
  });

  it("refuses what the help does not state", () => {
    for (const [words, message] of [
      [["rum"], /no command "rum"/],
      [["check", "indicators"], /check takes the whole book/],
      [["check", "--timeout", "3"], /--timeout belongs to the command run/],
      [["run", "--timeout", "soon"], /--timeout must be a number above 0, got "soon"/],
      [["run", "--heap=-5"], /--heap must be a number above 0/],
      [["run", "--fast"], /--fast/],
      [["kernel", "tslab"], /kernel takes no names/],
      [["reference", "audio"], /reference takes no names/],
      [["check", "--output", "x"], /--output belongs to the command publish or reference/],
      [["lab", "--no-browser"], /--no-browser/],
      [["lab", "--json"], /lab has no --json/],
      [["why", "a.b", "--from", "c"], /why takes one name.*or workings why --from/],
      [["vary", "a=1", "--from", "c"], /--from belongs to the command why/],
      [["compare", "HEAD"], /compare takes two revisions/],
      [["compare", "HEAD", ".", "v1"], /compare takes two revisions/],
      [["compare", "HEAD", ".", "--markdown", "--json"], /Markdown or JSON, not both/],
      [["check", "--markdown"], /--markdown belongs to the command publish or compare/],
    ] as const)
      expect(() => parseCommand(words)).toThrow(message);
  });

  it("has a help that names every option", () => {
    for (const option of ["book", "design", "timeout", "heap", "output", "json", "all", "help"]) expect(help).toContain(`--${option}`);
  });
});
