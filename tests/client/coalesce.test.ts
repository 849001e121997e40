import { expect, test } from "vitest";
import { coalesce } from "../../client/src/coalesce.ts";

/** Work that ends when it is told to, and counts how often it began. */
function slowWork() {
  let begun = 0;
  let end: () => void = () => {};
  const work = () => {
    begun++;
    return new Promise<void>((resolve) => {
      end = resolve;
    });
  };
  const finish = async () => {
    end();
    await new Promise((resolve) => setTimeout(resolve));
  };
  return { work, finish, begun: () => begun };
}

test("what is asked for during a run leads to one run after it", async () => {
  const { work, finish, begun } = slowWork();
  const ask = coalesce(work);
  ask();
  ask();
  ask();
  expect(begun()).toBe(1);
  await finish();
  expect(begun()).toBe(2);
  await finish();
  expect(begun()).toBe(2);
});

test("a later ask begins anew", async () => {
  const { work, finish, begun } = slowWork();
  const ask = coalesce(work);
  ask();
  await finish();
  ask();
  expect(begun()).toBe(2);
  await finish();
});
