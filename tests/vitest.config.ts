import { join } from "node:path";
import { defineConfig } from "vitest/config";

const root = join(import.meta.dirname, "..");
process.env.WORKINGS_TEST_FOLDER = join(root, `build/test/${process.pid}`);

/** Tests that mock a module: each file in a process of its own. */
const mocking = ["tests/kernel/write.test.ts", "tests/book/freshness.test.ts"];

const shared = {
  root,
  setupFiles: join(root, "tests/setup.ts"),
  // More than the two cores: tests of pages, signals and kernels wait for other processes half of their time. In a full run evaluations of
  // the whole book fill the cores, and what waits with a limit needs its share.
  maxWorkers: process.env.WORKINGS_FULL === undefined ? 4 : 3,
  maxConcurrency: 2,
  testTimeout: 180_000,
  hookTimeout: 600_000,
  // What is waited for is a document fetched, or a page read, each time.
  expect: { poll: { interval: 200 } },
};

export default defineConfig({
  test: {
    ...shared,
    globalSetup: join(root, "tests/tidy.ts"),
    projects: [
      // Processes in which files load the library, kernels and browser once.
      { test: { ...shared, name: "shared", include: ["tests/**/*.test.ts"], exclude: mocking, isolate: false } },
      { test: { ...shared, name: "mocking", include: mocking } },
    ],
  },
});
