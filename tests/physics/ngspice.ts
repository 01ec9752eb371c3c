/** The other program: ngspice as a child process on a netlist that the library wrote. */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

export const ngspicePresent = spawnSync("ngspice", ["--version"]).status === 0;

/** Rows of the printed table: frequency or time first, then the values in the order of the print line. */
export function ngspiceRows(netlist: string): readonly (readonly number[])[] {
  const folder = mkdtempSync(join(tmpdir(), "netlist-"));
  try {
    const file = join(folder, "circuit.cir");
    writeFileSync(file, netlist);
    const printed = execFileSync("ngspice", ["-b", file], {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "pipe"],
      timeout: 60_000,
      maxBuffer: 1 << 28,
    });
    const lines = printed.split("\n").filter((line) => /^\d+\s+[-\d.]+e/.test(line));
    return lines.map((line) => line.trim().split(/\s+/).slice(1).map(Number));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
