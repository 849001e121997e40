// Stands in for vitest while mutants are tried: collects tests, so that they can be run again and again without a process.
import {
  ASYMMETRIC_MATCHERS_OBJECT,
  chai,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from "@vitest/expect";

/**
 * @typedef {() => unknown} Body
 * @typedef {{ file: string, name: string, body: Body, before: Body[], after: Body[] }} Test
 */

/** @type {Test[]} all tests of the files loaded so far */
export const tests = [];
const scope = { file: "", before: /** @type {Body[]} */ ([]), after: /** @type {Body[]} */ ([]) };

/** Loads a test file by this function, and gives its tests. */
export function collect(/** @type {string} */ file, /** @type {() => unknown} */ load) {
  Object.assign(scope, { file, before: [], after: [] });
  const from = tests.length;
  load();
  return tests.slice(from);
}

export const test = withVariants((name, ...rest) => {
  const body = rest.find((each) => typeof each === "function");
  tests.push({ file: scope.file, name, body, before: scope.before, after: scope.after });
});
export const it = test;
export const describe = withVariants((_name, ...rest) => rest.find((each) => typeof each === "function")());

// Hooks are run around each test, those of a file too: a test may be run alone.
export const beforeEach = (/** @type {Body} */ hook) => void scope.before.push(hook);
export const beforeAll = beforeEach;
export const afterEach = (/** @type {Body} */ hook) => void scope.after.push(hook);
export const afterAll = afterEach;

/** @param {(name: string, ...rest: any[]) => void} declare */
function withVariants(declare) {
  const each =
    (/** @type {readonly unknown[]} */ cases) =>
    (/** @type {string} */ name, /** @type {any[]} */ ...rest) => {
      const body = rest.find((part) => typeof part === "function");
      for (const one of cases) declare(name, () => body(...(Array.isArray(one) ? one : [one])));
    };
  const skip = () => {};
  const runIf = (/** @type {unknown} */ holds) => (holds ? declare : skip);
  return Object.assign(declare, { each, skip, runIf, skipIf: (/** @type {unknown} */ holds) => runIf(!holds) });
}

for (const plugin of [JestExtend, JestChaiExpect, JestAsymmetricMatchers]) chai.use(plugin);
/** @type {any} */
export const expect = (/** @type {unknown} */ value, /** @type {string} */ message) => chai.expect(value, message);
Object.assign(expect, chai.expect, /** @type {any} */ (globalThis)[ASYMMETRIC_MATCHERS_OBJECT]);
setState({ assertionCalls: 0, isExpectingAssertions: false, expectedAssertionsNumber: null }, expect);
