import { defineConfig } from "vitest/config";
import { SuiteOrder } from "./.dev/suite-order.mjs";

// Its editor is started, and this variable set, by `npm run test:node-host` only.
const nodeHost = process.env.FETTLE_NODE_HOST
  ? [{ test: { name: "node-host", include: ["tests/node-host/**/*.test.ts"], testTimeout: 120_000 } }]
  : [];

export default defineConfig({
  test: {
    sequence: { sequencer: SuiteOrder },
    projects: [
      {
        test: {
          name: "unit",
          include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
          exclude: ["tests/client/**", "tests/e2e/**", "tests/fire/**", "tests/node-host/**"],
          // The machine may be busy with other work: a slow test is not a wrong one.
          testTimeout: 60_000,
          // Nothing in the core keeps state that a test could see: one copy of it serves them all.
          isolate: false,
          // A test that asks for nothing, as where all that it loops over is gone, is no test.
          expect: { requireAssertions: true },
        },
      },
      {
        test: {
          name: "client",
          include: ["tests/client/**/*.test.ts"],
          testTimeout: 60_000,
          // Each has an editor of its own for the client's modules, so each has its own copy of them.
          isolate: true,
          expect: { requireAssertions: true },
        },
      },
      {
        test: {
          name: "fire",
          include: ["tests/fire/**/*.test.ts"],
          // A run that was told to take hours takes them; each has its own bound.
          testTimeout: 0,
          hookTimeout: 60_000,
          isolate: true,
          expect: { requireAssertions: true },
        },
      },
      {
        test: {
          name: "e2e",
          include: ["tests/e2e/**/*.test.ts"],
          globalSetup: [".dev/e2e-build.mjs"],
          setupFiles: ["tests/e2e/failures.ts"],
          // One editor at a time: two cores carry one, and its timing is then its own.
          fileParallelism: false,
          // Suites share a browser, and where they can its window: to start one takes seconds.
          isolate: false,
          testTimeout: 60_000,
          hookTimeout: 120_000,
          // The editor answers in its own time, and hands the keyboard over in its own time too.
          expect: { poll: { timeout: 8_000 } },
          retry: 0,
        },
      },
      ...nodeHost,
    ],
  },
});
