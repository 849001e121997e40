/** `fleet-habit` in the language server: the craft are counted in the background, and again where one of them changes. */
import { afterEach, expect, test, vi } from "vitest";
import { following, uriOf } from "./closed-shed.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

let session: Session;
afterEach(() => session?.end());

const wheel = `handset "Wheel"
controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
`;
const craft = (name: string, level: string) =>
  `craft "${name}"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n  level when ${level}\n`;
const shed = () => ({
  "/shed/wheel.fettle": wheel,
  "/shed/cup.fettle": craft("Cup", "TR is mid"),
  "/shed/jug.fettle": craft("Jug", "TR is mid"),
  "/shed/urn.fettle": craft("Urn", "TR is down"),
});

const habitsIn = async (name: string) =>
  (await session.pull(uriOf(name))).filter(({ code }) => code === "fleet-habit").map(({ message }) => message);
const change = (name: string, version: number, text: string) =>
  session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: uriOf(name), version },
    contentChanges: [{ text }],
  });

test("a craft that is open is held to the others, as it is typed and as the others are", async () => {
  session = await startSession(filesInMemory(shed()));
  await session.open(uriOf("urn"), craft("Urn", "TR is down"));
  expect(await habitsIn("urn")).toEqual([]);
  await vi.waitFor(async () => expect(await habitsIn("urn")).toHaveLength(1), 8000);
  expect((await habitsIn("urn"))[0]).toMatch(
    /^On 2 of 3 craft with “Wheel”, such as “Cup” and “Jug”, level is TR mid;/,
  );
  // What is typed counts at once, and what it was counted for before does not.
  await change("urn", 2, craft("Urn", "TR is mid"));
  expect(await habitsIn("urn")).toEqual([]);
  await change("urn", 3, craft("Urn", "TL is down"));
  expect(await habitsIn("urn")).toHaveLength(1);
  // Another craft gives up the habit: now each has its own.
  await session.open(uriOf("cup"), craft("Cup", "TR is up"));
  await vi.waitFor(async () => expect(await habitsIn("urn")).toEqual([]), 8000);
});

test("scripts that are not open are told of it too, and those of which nothing else is to be said are not told again", async () => {
  session = await startSession(filesInMemory(shed()));
  const client = following(session);
  void client.begin();
  const codes = (name: string) =>
    client.shown.get(uriOf(name))?.flatMap(({ code }) => (code === "fleet-habit" ? code : []));
  await vi.waitFor(() => expect(codes("urn")).toEqual(["fleet-habit"]), 8000);
  expect([codes("cup"), codes("jug")]).toEqual([[], []]);
  client.news();
  // One of the two that agreed has another habit now, so that nobody is in the wrong.
  await session.open(uriOf("cup"), craft("Cup", "TR is up"));
  await vi.waitFor(() => expect(codes("urn")).toEqual([]), 8000);
  expect(client.news().filter((name) => !name.includes("unchanged") && name !== "cup")).toEqual(["urn"]);
});

test("however often a craft changes, no other file is read twice", async () => {
  const reads = new Map<string, number>();
  session = await startSession(filesInMemory(shed(), reads));
  await session.open(uriOf("urn"), craft("Urn", "TR is down"));
  await vi.waitFor(async () => expect(await habitsIn("urn")).toHaveLength(1), 8000);
  await change("urn", 2, craft("Urn", "TR is up"));
  await vi.waitFor(async () => expect(await habitsIn("urn")).toHaveLength(1), 8000);
  expect([...reads.values()].filter((times) => times > 1)).toEqual([]);
});
