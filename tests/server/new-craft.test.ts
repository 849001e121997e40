import { afterEach, expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import { NEW_CRAFT_REQUEST, type NewCraftParams, type NewCraftResult } from "../../shared/protocol/new-craft.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const wheel =
  'handset "Wheel"\n\ntransmitter\n  band  2.4 GHz\n\ncontrols\n  TL  switch  ch5  up 1000 us  down 2000 us\n';
const habits = 'layer "Habits"\n\nsafety\n  arm-hold  300 ms\n';
const texts = { "/shed/handsets/wheel.fettle": wheel, "/shed/layers/habits.fettle": habits };
/** All but the layers, of which there may be none. */
const ANSWERS = {
  name: "Jug",
  size: "5-inch",
  pack: "6-lipo",
  link: "2.4-ghz",
  video: "digital",
  grid: "53x20",
  gps: "no",
  pilot: "beginner",
};

let session: Session;
afterEach(() => session?.end());

async function ask(params: NewCraftParams): Promise<NewCraftResult> {
  session = await startSession(filesInMemory({ ...texts }));
  return session.client.sendRequest(NEW_CRAFT_REQUEST, params);
}

test("the questions offer what the folder holds, as the answers so far leave them", async () => {
  const { questions, text, problem } = await ask({
    folder: asUri("file:///shed"),
    answers: { name: "Jug", size: "31-mm" },
  });
  const words = (id: string) => questions.find((each) => each.id === id)!.choices.map(({ word }) => word);
  expect(questions).toHaveLength(9);
  expect(words("pack")).toEqual(["1-lihv", "1-lipo", "2-lihv", "2-lipo"]);
  expect(words("link")[0]).toBe("handsets/wheel.fettle");
  expect(words("layers")).toEqual(["layers/habits.fettle"]);
  expect({ text, problem }).toEqual({ text: null, problem: null });
});

test("the script checks clean where it is to be kept", async () => {
  const answers = { ...ANSWERS, link: "handsets/wheel.fettle", layers: ["layers/habits.fettle"] };
  const { text, path } = await ask({ folder: asUri("file:///shed/"), answers });
  expect(path).toBe("craft/jug.fettle");
  await session.open("file:///shed/craft/jug.fettle", text!);
  expect(text).toContain('use "../handsets/wheel.fettle"\nuse "../layers/habits.fettle"\n');
  expect(await session.pull("file:///shed/craft/jug.fettle")).toEqual([]);
});

test("without a folder no files are offered, and the script checks clean as a text without a file", async () => {
  const { questions, text } = await ask({ folder: null, answers: ANSWERS });
  expect(questions.find(({ id }) => id === "layers")!.choices).toEqual([]);
  await session.open("untitled:Untitled-1", text!);
  expect(await session.pull("untitled:Untitled-1")).toEqual([]);
});

test("a wrong answer is said, and gives no script", async () => {
  const { text, problem } = await ask({ folder: null, answers: { ...ANSWERS, size: "6-inch" } });
  expect(text).toBe(null);
  expect(problem).toMatch(/^size: “6-inch” is no answer: /);
});
