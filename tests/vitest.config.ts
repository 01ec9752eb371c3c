import { defineConfig } from "vitest/config";

/** Tests that start compilers, kernels, Chromium or the command line, or that mock a module: each file in a process of its own. */
const ownProcess = [
  "tests/{e2e,cli,kernel,surfaces}/**/*.test.ts",
  "tests/document/*.test.ts",
  "tests/book/freshness.test.ts",
  "tests/{formula,quantity,sheet}/*types.test.ts",
];

const shared = {
  root: new URL("..", import.meta.url).pathname,
  // Two cores: what is started by tests takes a core of its own.
  maxWorkers: 2,
  maxConcurrency: 2,
  testTimeout: 60_000,
  hookTimeout: 120_000,
};

export default defineConfig({
  test: {
    ...shared,
    projects: [
      {
        // Pure functions: nothing is mocked, so files share threads and load the library once.
        test: { ...shared, name: "pure", include: ["tests/**/*.test.ts"], exclude: ownProcess, pool: "threads", isolate: false },
      },
      { test: { ...shared, name: "processes", include: ownProcess } },
    ],
  },
});
