import { describe, expect, it } from "vitest";
import { Progress } from "../../lib/cli/progress";

function written(isTTY: boolean): string {
  let text = "";
  let time = 0;
  const progress = new Progress({ isTTY, columns: 60, write: (more) => (text += more) }, ["light", "battery"], () => time);
  progress.start("light");
  progress.start("battery");
  time = 1250;
  progress.update("light", "cell 2 of 3");
  progress.end("battery", "done");
  time = 2000;
  progress.end("light", "done, outputs changed");
  return text;
}

describe("Progress", () => {
  it("redraws one line of all that run, and above it writes those done in the book's order", () => {
    expect(written(true).split("\r\x1b[K").slice(1)).toEqual([
      "light  starting  0.0 s",
      "light  starting  0.0 s   battery  starting  0.0 s",
      "light  cell 2 of 3  1.3 s   battery  starting  1.3 s",
      "light  cell 2 of 3  1.3 s",
      "light    done, outputs changed  2.0 s\n",
      "battery  done  1.3 s\n",
    ]);
  });

  it("writes plain lines elsewhere, in the book's order whatever is done first", () => {
    expect(written(false)).toBe("light    done, outputs changed  2.0 s\nbattery  done  1.3 s\n");
  });
});
