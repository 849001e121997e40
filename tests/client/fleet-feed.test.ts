/** The fleet for the pages of the panel: what they have is not sent again, and a page that begins anew has nothing. */
import { expect, test, vi } from "vitest";
import type { FleetParams, FleetResult } from "../../shared/protocol/fleet-messages.ts";

vi.mock("vscode", () => ({
  CancellationTokenSource: class {
    readonly token = { isCancellationRequested: false };
    cancel() {
      this.token.isCancellationRequested = true;
    }
  },
}));
const { fleetFeed } = await import("../../client/src/fleet-feed.ts");

const FLEET = { craft: [] } as never;
const WHOLE: FleetResult = { id: "1", fleet: FLEET };
const UNCHANGED: FleetResult = { id: "1", fleet: null };

test("a page that began anew while an answer was under way gets the whole fleet", async () => {
  vi.useFakeTimers();
  const known: (string | null)[] = [];
  const taken: unknown[] = [];
  let answer = (_: FleetResult) => {};
  const feed = fleetFeed({
    ask: <T>(_: string, params: unknown) => {
      known.push((params as FleetParams).known);
      return new Promise<FleetResult>((resolve) => {
        answer = resolve;
      }) as Promise<T>;
    },
    isWanted: () => true,
    take: (fleet) => taken.push(fleet),
    failed: (error) => expect.unreachable(String(error)),
  });
  const paused = () => vi.advanceTimersByTimeAsync(250);
  feed.changed();
  await paused();
  answer(WHOLE);
  feed.changed();
  await paused();
  // The panel is hidden and shown: its page says that it is there, and which view it shows.
  feed.forget();
  feed.changed();
  await paused();
  answer(UNCHANGED);
  await paused();
  answer(WHOLE);
  await paused();
  expect(known).toEqual([null, "1", null]);
  expect(taken).toEqual([FLEET, FLEET]);
  feed.dispose();
  vi.useRealTimers();
});
