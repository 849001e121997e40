import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
          exclude: ["tests/e2e/**"],
          // The machine may be busy with other work: a slow test is not a wrong one.
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: "e2e",
          include: ["tests/e2e/**/*.test.ts"],
          globalSetup: [".dev/e2e-build.mjs"],
          // One editor at a time: two cores carry one, and its timing is then its own.
          fileParallelism: false,
          testTimeout: 60_000,
          hookTimeout: 120_000,
          retry: 0,
        },
      },
    ],
  },
});
