import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    // Compilers, Chromium, ngspice and notebook kernels are started by tests: two at a time on two cores.
    maxWorkers: 2,
    maxConcurrency: 2,
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
