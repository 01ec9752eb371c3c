/** The other program: ngspice as a child process on a netlist that the library wrote. */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

export const ngspicePresent = spawnSync("ngspice", ["--version"]).status === 0;

/** Rows of the printed table: frequency or time first, then the values in the order of the print line. */
export function ngspiceRows(netlist: string): readonly (readonly number[])[] {
  const lines = printed(netlist)
    .split("\n")
    .filter((line) => /^\d+\s+[-\d.]+e/.test(line));
  return lines.map((line) => line.trim().split(/\s+/).slice(1).map(Number));
}

/** Single values that the control section printed, by name: `v(out) = 1.5`. */
export function ngspiceValues(netlist: string): Readonly<Record<string, number>> {
  const found = printed(netlist).matchAll(/^(\S+) = ([-+\d.e]+)\s*$/gm);
  return Object.fromEntries(Array.from(found, ([, name, value]) => [name, Number(value)]));
}

function printed(netlist: string): string {
  const folder = mkdtempSync(join(tmpdir(), "netlist-"));
  try {
    const file = join(folder, "circuit.cir");
    writeFileSync(file, netlist);
    return execFileSync("ngspice", ["-b", file], {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "pipe"],
      timeout: 60_000,
      maxBuffer: 1 << 28,
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
