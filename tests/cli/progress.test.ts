import { describe, expect, it } from "vitest";
import { Progress } from "../../lib/cli/progress";

function written(isTTY: boolean): string {
  let text = "",
    time = 0;
  const progress = new Progress({ isTTY, columns: 30, write: (more) => (text += more) }, 8, () => time);
  progress.start("light");
  time = 1250;
  progress.update("light", "cell 2 of 3");
  time = 2000;
  progress.write(progress.end("light", "done, outputs changed"));
  return text;
}

describe("Progress", () => {
  it("redraws one line on a terminal, cut to its width", () => {
    expect(written(true)).toBe(
      "\r\x1b[Klight     starting  0.0 s\r\x1b[Klight     cell 2 of 3  1.3 s\r\x1b[Klight     done, outputs changed  2.0 s\n",
    );
  });

  it("writes one plain line elsewhere", () => {
    expect(written(false)).toBe("light     done, outputs changed  2.0 s\n");
  });

  it("draws the sheets that run at a time in one line, below what is said of those that are done", () => {
    let text = "";
    const progress = new Progress({ isTTY: true, columns: 80, write: (more) => (text += more) }, 5, () => 0);
    progress.start("light");
    progress.start("noise");
    expect(text.split("\r\x1b[K").at(-1)).toBe("light  starting  0.0 s   noise  starting  0.0 s");
    text = "";
    progress.write(progress.end("light", "done"), () => (text += "  a warning\n"));
    expect(text).toBe("\r\x1b[Klight  done  0.0 s\n  a warning\n\r\x1b[Knoise  starting  0.0 s");
    progress.end("noise", "done");
  });
});
