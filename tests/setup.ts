/** Loaded anew before each test file. Declared first, so that what a file does at its end comes before. */
import { afterAll, afterEach, beforeEach } from "vitest";
import { hooks } from "./shared-process";

const all = async (which: keyof typeof hooks) => {
  for (const hook of hooks[which]) await hook();
};
beforeEach(() => all("beforeTest"));
afterEach(() => all("afterTest"));
afterAll(() => all("afterFile"));
