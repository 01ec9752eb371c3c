import { describe, expect, it } from "vitest";
import { Progress } from "../../lib/cli/progress";

function written(isTTY: boolean): string {
  let text = "",
    time = 0;
  const progress = new Progress({ isTTY, columns: 30, write: (more) => (text += more) }, 8, () => time);
  progress.start("light");
  time = 1250;
  progress.update("cell 2 of 3");
  time = 2000;
  progress.end("done, outputs changed");
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
});
