import { defineConfig } from "vitest/config";

/** Tests that change the folder of their process, leave kernels or folders to its end, or mock a module: each file in a process of its own. */
const ownProcess = [
  "tests/{e2e,surfaces}/*.test.ts",
  "tests/kernel/!(kept|literals|takes).test.ts",
  "tests/cli/{cli,lab}.test.ts",
  "tests/book/freshness.test.ts",
];

const shared = {
  root: new URL("..", import.meta.url).pathname,
  // Two cores: what is started by tests takes a core of its own.
  maxWorkers: 2,
  maxConcurrency: 2,
  testTimeout: 60_000,
  hookTimeout: 600_000,
  // What is waited for is a document fetched, or a page read, each time.
  expect: { poll: { interval: 200 } },
};

export default defineConfig({
  test: {
    ...shared,
    projects: [
      {
        // Nothing is mocked and nothing of the process changed, so files share threads and load the library once.
        test: { ...shared, name: "pure", include: ["tests/**/*.test.ts"], exclude: ownProcess, pool: "threads", isolate: false },
      },
      { test: { ...shared, name: "processes", include: ownProcess } },
    ],
  },
});
