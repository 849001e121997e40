/** What has a name, as an editor asks about it: where it stands, in the workspace and in its document. */
import { afterEach, expect, test } from "vitest";
import type { DocumentHighlight, Location } from "vscode-languageserver";
import { filesInMemory, type Session, startSession } from "./session.ts";

const texts = {
  "/shed/jug.fettle": 'craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\nmodes\n  level when TL is up\n',
  "/shed/habits.fettle": 'layer "Habits"\nmodes\n  arm when TL is down\n',
  "/shed/wheel.fettle": 'handset "Wheel"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us rests up\n',
};
const uri = (name: string) => `file:///shed/${name}.fettle`;

let session: Session;
afterEach(() => session?.end());

async function ask<T>(method: string, name: string, line: number, character: number, more = {}): Promise<T> {
  return session.client.sendRequest<T>(`textDocument/${method}`, {
    textDocument: { uri: uri(name) },
    position: { line, character },
    ...more,
  });
}

const told = (places: readonly Location[]) =>
  places.map(
    ({ uri: where, range }) =>
      `${where.slice("file:///shed/".length)} ${range.start.line}:${range.start.character}-${range.end.character}`,
  );

test("the references of a control stand in files that are not open", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("habits"), texts["/shed/habits.fettle"]);
  const all = await ask<Location[]>("references", "habits", 2, 12, { context: { includeDeclaration: true } });
  expect(told(all)).toEqual(["habits.fettle 2:11-13", "jug.fettle 4:13-15", "wheel.fettle 2:2-4"]);
  const others = await ask<Location[]>("references", "habits", 2, 12, { context: { includeDeclaration: false } });
  expect(told(others)).toEqual(["habits.fettle 2:11-13", "jug.fettle 4:13-15"]);
});

test("references are those of the text as it is typed", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("habits"), "# mine\n".concat(texts["/shed/habits.fettle"]));
  const all = await ask<Location[]>("references", "jug", 4, 14, { context: { includeDeclaration: true } });
  expect(told(all)).toEqual(["habits.fettle 3:11-13", "jug.fettle 4:13-15", "wheel.fettle 2:2-4"]);
});

test("what is said is told from what is used", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("wheel"), texts["/shed/wheel.fettle"]);
  const marks = await ask<DocumentHighlight[]>("documentHighlight", "wheel", 2, 16);
  expect(marks.map(({ range, kind }) => [range.start.character, kind])).toEqual([
    [16, 3],
    [46, 2],
  ]);
});

test("where nothing has a name there is nothing", async () => {
  session = await startSession(filesInMemory(texts));
  await session.open(uri("wheel"), texts["/shed/wheel.fettle"]);
  expect(await ask("references", "wheel", 2, 21, { context: { includeDeclaration: true } })).toEqual([]);
  expect(await ask("documentHighlight", "wheel", 2, 21)).toEqual([]);
});
