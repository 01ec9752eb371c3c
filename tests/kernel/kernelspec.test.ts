import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { registerKernel } from "../../lib/kernel/kernelspec";
import { WorkingsError } from "../../lib/quantity/error";
import { notebookOf, scratch } from "./fixture";

describe("registerKernel", () => {
  it("writes what starts the script, under the name and the display name that notebooks have", () => {
    const folder = join(scratch(), "jupyter é");
    const { file } = registerKernel(folder, "/opt/a folder/kernel-child.js");
    expect(file).toBe(join(folder, "kernels/tslab/kernel.json"));
    const { argv, ...spec } = JSON.parse(readFileSync(file, "utf8"));
    expect(argv).toEqual([process.execPath, "/opt/a folder/kernel-child.js", "--jupyter", "{connection_file}"]);
    expect(notebookOf().metadata.kernelspec).toEqual({ name: "tslab", display_name: spec.display_name, language: spec.language });
    expect(spec.interrupt_mode).toBe("signal");
  });

  it("leaves a file that is right as it is, and no other one beside it", () => {
    const folder = scratch();
    expect(registerKernel(folder, "/a.js").changed).toBe(true);
    expect(registerKernel(folder, "/a.js").changed).toBe(false);
    expect(registerKernel(folder, "/b.js").changed).toBe(true);
    expect(readdirSync(join(folder, "kernels/tslab"))).toEqual(["kernel.json"]);
  });

  it("says so where it cannot write", () => {
    const folder = scratch();
    writeFileSync(join(folder, "kernels"), "");
    expect(() => registerKernel(folder, "/a.js")).toThrow(WorkingsError);
    expect(() => registerKernel(folder, "/a.js")).toThrow(/cannot write kernel\.json: a part of the path is a file, not a folder/);
  });
});
