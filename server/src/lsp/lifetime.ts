/** From the first message to the last: what a server answers before it is initialized, and after it was shut down. */
import { CODES, Refused } from "./refused.ts";

export interface Lifetime {
  /**
   * Called before each message is looked at. Gives false for a notification that is to be dropped.
   * @throws Refused for a request out of its time
   */
  admits(kind: "request" | "notification"): boolean;
  /** @throws Refused where it has begun already */
  begin(): void;
  /** @throws Refused where it has not begun, or is over */
  shutDown(): void;
  /** The client has said “exit”: a worker goes on, and serves whoever begins anew with it. */
  exit(): void;
  /** Whether the client has said that it is over. */
  isOver(): boolean;
}

/** Nothing has been said yet. */
export function makeLifetime(): Lifetime {
  let state: "new" | "serving" | "over" = "new";
  let wasOver = false;
  const admits = (kind: "request" | "notification") => {
    if (state === "serving") return true;
    if (kind === "notification") return false;
    if (state === "new") throw new Refused("The first request is “initialize”.", CODES.notInitialized);
    throw new Refused("The server was shut down: only “exit” may follow.", CODES.invalidRequest);
  };
  return {
    admits,
    begin() {
      if (state !== "new") throw new Refused("The server is initialized already.", CODES.invalidRequest);
      state = "serving";
    },
    shutDown() {
      admits("request");
      state = "over";
    },
    exit() {
      wasOver = state === "over";
      state = "new";
    },
    isOver: () => state === "over" || (state === "new" && wasOver),
  };
}
