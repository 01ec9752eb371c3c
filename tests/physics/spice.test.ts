import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { light } from "../../lib/physics";
import type { Junction } from "../../lib/physics/light/shockley";

const present = spawnSync("ngspice", ["--version"]).status === 0;
const red: Junction = { I_s: 1e-17, n: 2, R_s: 8 };
const green: Junction = { I_s: 1e-25, n: 2, R_s: 12 };
const points: readonly (readonly [Junction, number, number])[] = [
  [red, 3.3, 220],
  [red, 3.0, 470],
  [red, 3.0, 100],
  [red, 4.5, 1000],
  [red, 2.0, 330],
  [red, 5.0, 68],
  [green, 3.3, 150],
  [green, 4.5, 820],
  [green, 3.0, 47],
  [green, 3.0, 2200],
  [green, 9.0, 4700],
  [green, 2.7, 10],
];

/** Each point as its own branch of one circuit, solved by the other program at 25 °C. */
function netlist(): string {
  const branches = points.map(([d, V_s, R], i) =>
    [
      `V${i} s${i} 0 DC ${V_s}`,
      `R${i} s${i} a${i} ${R}`,
      `D${i} a${i} 0 J${i}`,
      `.model J${i} D(IS=${d.I_s} N=${d.n} RS=${d.R_s} TNOM=25)`,
    ].join("\n"),
  );
  const prints = points.map((_, i) => `print v(a${i})`).join("\n");
  return [
    "* diodes with series resistors",
    ...branches,
    ".options TEMP=25 TNOM=25 RELTOL=1e-9 ABSTOL=1e-16 GMIN=1e-18",
    ".control",
    "set numdgt=12",
    "op",
    prints,
    "quit",
    ".endc",
    ".end",
    "",
  ].join("\n");
}

function solved(): number[] {
  const folder = mkdtempSync(join(tmpdir(), "diode-"));
  try {
    writeFileSync(join(folder, "diode.cir"), netlist());
    const printed = execFileSync("ngspice", ["-b", join(folder, "diode.cir")], {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "ignore"],
      timeout: 30_000,
    });
    return points.map((_, i) => Number(new RegExp(`v\\(a${i}\\) = (\\S+)`).exec(printed)?.[1] ?? Number.NaN));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

describe("light.shockleyOperatingPoint against ngspice", () => {
  it.skipIf(!present && process.env.CI !== "true")(
    `gives the same current within 3e-4 at ${points.length} points${present ? "" : " (not run: ngspice is not installed)"}`,
    () => {
      expect(present, "ngspice is not installed").toBe(true);
      const voltages = solved();
      points.forEach(([diode, V_s, R], i) => {
        const current = (V_s - (voltages[i] ?? Number.NaN)) / R;
        const ours = light.shockleyOperatingPoint.evaluate({ V_s, R, ...diode, T: 298.15 }).I;
        expect(Math.abs(ours / current - 1), `${V_s} V, ${R} ohm: ${ours} A, ngspice ${current} A`).toBeLessThan(3e-4);
      });
    },
  );
});
