import { defineConfig } from "vitest/config";

// Its editor is started, and this variable set, by `npm run test:node-host` only.
const nodeHost = process.env.FETTLE_NODE_HOST
  ? [{ test: { name: "node-host", include: ["tests/node-host/**/*.test.ts"], testTimeout: 120_000 } }]
  : [];

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
          exclude: ["tests/e2e/**", "tests/node-host/**"],
          // The machine may be busy with other work: a slow test is not a wrong one.
          testTimeout: 60_000,
          // Nothing in the core keeps state that a test could see: one copy of it serves them all.
          isolate: false,
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
          // The editor answers in its own time, and hands the keyboard over in its own time too.
          expect: { poll: { timeout: 8_000 } },
          retry: 0,
        },
      },
      ...nodeHost,
    ],
  },
});
