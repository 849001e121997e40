/** One case: a shed in memory, a page of it in a browser, and a number of gestures, each of them held to what must be true. */
import { type Random, randomOf } from "../../fire/random.ts";
import { pageViolations } from "../looks.ts";
import { wear } from "../panel-page.ts";
import { type Connection, connect, type Message } from "./connection.ts";
import { differenceFromFresh } from "./drawn.ts";
import { changeLooks, gesture } from "./gestures.ts";
import { isKnown } from "./known-messages.ts";
import { commands, memory } from "./memory-editor.ts";
import { unnamedLines, type Written } from "./named-lines.ts";
import { otherHand } from "./other-hand.ts";
import type { Frame } from "./page-in-view.ts";
import { type Shed, startShed } from "./shed-host.ts";

export type Place = "panel" | keyof Shed["tabs"];

/** What is counted over all cases. */
export const counts = { cases: 0, gestures: 0, messages: 0, edits: 0, undone: 0, others: 0, hidden: 0, compared: 0 };

/** The pages of the browser that all cases share: the one that is used, and the one that begins anew. */
export interface Frames {
  readonly shown: Frame;
  readonly fresh: Frame;
}

interface Running {
  readonly random: Random;
  readonly shed: Shed;
  readonly frames: Frames;
  readonly connection: Connection;
  readonly trail: string[];
}

const GESTURES = 12;
const VIEWS = ["goggles", "goggles", "numbers", "bench", "switches", "fleet"] as const;
/** Nothing that comes is later than this, apart from pauses of the hosts. */
const QUIET_MS = 25;
/** What the server works out when the keys have paused, such as habits of the fleet, is there by then on a busy machine. */
const IN_STEP_WITHIN_MS = 4_000;
/** Tabs and the fleet ask when the keys have paused for 200 ms. */
const PAUSED_MS = 240;

/** Runs a case; throws with all that was done before, where something did not hold. */
export async function runCase(
  frames: Frames,
  files: ReadonlyMap<string, string>,
  { seed, number, place }: { readonly seed: number; readonly number: number; readonly place: Place },
): Promise<void> {
  const random = randomOf(seed, number);
  // Drawn apart: how often something is asked depends on the machine, and what is done must not.
  const lateness = randomOf(seed + 1, number);
  const most = random.oneOf([0, 0, 0, 12, 60]);
  const lateMs = () => (most === 0 ? 0 : lateness.below(most));
  const trail = [`${place}, answers up to ${most} ms late`];
  const faults: string[] = [];
  const onRejection = (error: unknown) =>
    void faults.push(`a rejection: ${error instanceof Error ? error.stack : error}`);
  process.on("unhandledRejection", onRejection);
  const shed = await startShed(withLineEnds(files, random), lateMs);
  let connection: Connection | undefined;
  try {
    await openPlace(shed, place, random, trail);
    memory.answer = (count) => (random.onceIn(4) ? null : random.below(count));
    frames.shown.errors.length = 0;
    frames.fresh.errors.length = 0;
    await frames.shown.page.setViewportSize({ width: 420, height: 800 });
    connection = connect(memory.webviews[0]!, frames.shown, lateMs, onRejection);
    const running: Running = { random, shed, frames, connection, trail };
    await settle(running);
    await wear(frames.shown.page, "light");
    for (let left = GESTURES; left > 0; left--) {
      await oneGesture(running, faults);
      if (faults.length > 0) throw new Error(faults.join("\n"));
    }
    await atTheEnd(running, faults);
    if (faults.length > 0) throw new Error(faults.join("\n"));
    counts.cases++;
  } catch (error) {
    throw new Error(`case ${number} of seed ${seed} (${place}): ${(error as Error).message}\n${trail.join("\n")}`);
  } finally {
    process.off("unhandledRejection", onRejection);
    await connection?.end();
    shed.end();
  }
}

async function openPlace(shed: Shed, place: Place, random: Random, trail: string[]): Promise<void> {
  const scripts = [...memory.files.keys()].filter((address) => address.endsWith(".fettle"));
  const crafts = scripts.filter((address) => address.includes("/craft/"));
  const mine = place === "panel" && random.onceIn(4) ? random.oneOf(scripts) : random.oneOf(crafts);
  const other = random.oneOf(crafts);
  trail.push(`of ${mine}${place === "comparison" || place === "review" ? ` and ${other}` : ""}`);
  await shed.show(mine);
  if (place === "panel" && random.onceIn(6)) {
    trail.push(`held against ${other}`);
    await commands.executeCommand("fettle.overlay", { mine, other: { kind: "file", uri: other } });
  } else if (place === "panel") await shed.showView(random.oneOf(VIEWS));
  else shed.tabs[place](mine, other);
}

/** One thing that is done, and all that must hold after it. */
async function oneGesture(running: Running, faults: string[]): Promise<void> {
  const { random, shed, frames, connection, trail } = running;
  const { page } = frames.shown;
  const before = textsNow();
  const [made, stepped] = [memory.made.length, memory.stepped.length];
  connection.said();
  let others = 0;
  const meanwhile = async () => {
    others++;
    counts.others++;
    return `another hand: ${await otherHand(random, shed)}`;
  };
  const act = random.below(20);
  if (act < 14) trail.push(await gesture(page, random, random.onceIn(3) ? () => hideAndShow(running) : meanwhile));
  else if (act < 17) trail.push(await meanwhile());
  else if (act === 17) trail.push(await hideAndShow(running));
  else if (act === 18) trail.push(await changeLooks(page, random));
  else {
    // In one go, without waiting for what comes of it.
    trail.push(`${await gesture(page, random, meanwhile)}; at once ${await gesture(page, random, meanwhile)}`);
    counts.gestures++;
  }
  counts.gestures++;
  await settle(running);
  const said = connection.said();
  counts.messages += said.length;
  const edits = memory.made.slice(made).filter((parts) => parts.length > 0);
  counts.edits += edits.length;
  for (const message of said) if (!isKnown(message)) faults.push(`nobody knows the message ${JSON.stringify(message)}`);
  faults.push(...wrongEdits(said, edits), ...frames.shown.errors.splice(0), ...shed.log.splice(0));
  if (faults.length > 0) return;
  const steps = memory.stepped.length - stepped;
  if (edits.length === 1 && steps === 0 && others === 0 && connection.webview.isVisible)
    await takenBack(running, before, faults);
  if (connection.webview.isVisible) await held(running, faults);
}

/** The page is hidden and shown again: it begins anew, with what it kept. */
async function hideAndShow({ connection, random }: Running): Promise<string> {
  counts.hidden++;
  connection.webview.setVisible(false);
  await connection.follow();
  if (random.onceIn(2)) await new Promise((resolve) => setTimeout(resolve, random.below(60)));
  connection.webview.setVisible(true);
  await connection.follow();
  return "hidden and shown";
}

/** Edits of which the messages of the page name nothing; and more edits than were asked for. */
function wrongEdits(said: readonly Message[], edits: typeof memory.made): string[] {
  const written = said.filter((message): message is Written => ["osd", "motor", "bench"].includes(message.kind));
  // What a button leads on to, and what a tab takes over, names lines of any section.
  const free = said.filter(({ kind }) => ["run", "take", "adopt", "apply"].includes(kind)).length;
  const wrong = edits.filter(
    (parts) => !written.some((each) => parts.every((part) => unnamedLines(each, part).length === 0)),
  );
  if (wrong.length > free) {
    const lines = wrong.flatMap((parts) =>
      parts.flatMap((part) => written.flatMap((each) => unnamedLines(each, part))),
    );
    return [`lines that no gesture names: ${lines.join(" | ")} after ${JSON.stringify(written)}`];
  }
  if (edits.length > written.length + free)
    return [`${edits.length} steps to undo of ${written.length + free} gestures`];
  return [];
}

/** Undo on the page brings every text back byte for byte, and redo what was made. */
async function takenBack(running: Running, before: ReadonlyMap<string, string>, faults: string[]): Promise<void> {
  const { page } = running.frames.shown;
  const after = textsNow();
  for (const [keys, ought] of [
    ["Control+z", before],
    ["Control+Shift+z", after],
  ] as const) {
    const steps = memory.stepped.length;
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press(keys);
    await settle(running);
    const asked = running.connection.said().filter(({ kind }) => kind === "undo" || kind === "redo").length;
    if (asked === 0) return;
    counts.undone++;
    running.trail.push(keys);
    if (memory.stepped.length - steps !== 1) faults.push(`${keys} made ${memory.stepped.length - steps} steps`);
    for (const [address, text] of textsNow())
      if (ought.has(address) && ought.get(address) !== text) faults.push(`after ${keys} ${address} is not as it was`);
    if (faults.length > 0) return;
  }
}

/** The model is that of the scripts as they are, and the drawing that of the model. */
async function held(running: Running, faults: string[]): Promise<void> {
  const { frames, connection } = running;
  const untilMs = performance.now() + IN_STEP_WITHIN_MS;
  for (;;) {
    const stale = await staleness(running);
    if (!stale) break;
    if (performance.now() > untilMs) return void faults.push(`what is drawn is out of date: ${stale}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
    await settle(running);
  }
  for (let tries = 0; tries < 5; tries++) {
    const sent = connection.sent();
    const difference = await differenceFromFresh(
      frames.shown,
      frames.fresh,
      connection.webview.html,
      connection.told(),
    );
    await settle(running);
    // The server may have had more to say meanwhile.
    if (difference && connection.sent() !== sent) continue;
    if (difference) faults.push(`not what a fresh page draws: ${difference}`);
    break;
  }
  counts.compared++;
  faults.push(...frames.fresh.errors.splice(0));
}

/** What of the model that the page has is no more as the server has it; null where nothing is. */
async function staleness({ connection, shed }: Running): Promise<string | null> {
  const told = connection.told().find(({ kind }) => kind === "model");
  const now = told && (await shed.modelNow());
  return now ? firstUnlike((told as unknown as { readonly model: unknown }).model, now, "model") : null;
}

async function atTheEnd({ frames, connection }: Running, faults: string[]): Promise<void> {
  if (connection.webview.isVisible) faults.push(...(await pageViolations(frames.shown.page, "names")));
}

/** Waits until nothing is under way: in the page, between page and host, and in the server. */
async function settle({ connection, frames, shed }: Pick<Running, "connection" | "frames" | "shed">): Promise<void> {
  let quietSinceMs = performance.now();
  const pauses = () => connection.webview.type !== "fettle.panel" || connection.view() === "fleet";
  const untilQuiet = async () => {
    for (;;) {
      await connection.follow();
      await new Promise((resolve) => setTimeout(resolve, 5));
      if (shed.isBusy() || connection.isBusy()) quietSinceMs = performance.now();
      else if (performance.now() - quietSinceMs > (pauses() ? PAUSED_MS : QUIET_MS)) return;
    }
  };
  await untilQuiet();
  for (let rounds = 0; rounds < 3; rounds++) {
    const heard = connection.heard();
    // Series of keys end, and what was dropped settles.
    if (connection.webview.isVisible) await frames.shown.page.clock.fastForward(2_000);
    quietSinceMs = performance.now();
    await untilQuiet();
    if (connection.heard() === heard) return;
  }
}

const textsNow = () => new Map(memory.documents.all().map((document) => [document.uri.toString(), document.getText()]));

/** Some scripts are written on other systems. */
function withLineEnds(files: ReadonlyMap<string, string>, random: Random): ReadonlyMap<string, string> {
  if (!random.onceIn(5)) return files;
  return new Map([...files].map(([address, text]) => [address, text.replaceAll("\n", "\r\n")]));
}

/** Where two plain values first differ; null where they do not. */
function firstUnlike(is: unknown, ought: unknown, at: string): string | null {
  if (typeof is !== "object" || typeof ought !== "object" || !is || !ought)
    return Object.is(is, ought) ? null : `${at} is ${JSON.stringify(is)} and ought to be ${JSON.stringify(ought)}`;
  for (const key of new Set([...Object.keys(is), ...Object.keys(ought)])) {
    const unlike = firstUnlike(is[key as keyof typeof is], ought[key as keyof typeof ought], `${at}.${key}`);
    if (unlike) return unlike;
  }
  return null;
}
