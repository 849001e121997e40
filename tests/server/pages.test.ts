/** Links from hovers to reference pages, in each way in which a client can follow them. */
import { afterEach, expect, test } from "vitest";
import type { Hover } from "vscode-languageserver/node";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const uri = "file:///shed/jug.fettle";
const text = `craft "Jug"
pack
  warn-at 3.5 V/cell
modes
  arm when ch5 above 1500 us
  recorder when arm
osd
  pack-volts at 1, 1
  drop amps
outputs
  glow when arm
`;

let session: Session;
afterEach(() => session.end());

async function linkAt(line: number, character: number, options?: unknown): Promise<string | undefined> {
  session = await startSession(filesInMemory({}), PULLING, options);
  await session.open(uri, text);
  const hover: Hover | null = await session.client.sendRequest("textDocument/hover", {
    textDocument: { uri },
    position: { line, character },
  });
  if (!hover) throw new Error("There is no hover.");
  const { value } = hover.contents as { value: string };
  return /\[All about (.*)\]\((.*)\)$/.exec(value)?.slice(1).join(" ");
}

const command = { pageCommand: "fettle.showPage", pageBase: "fettle-page:/" };

test.each([
  [1, 1, "pack", "pack"],
  [2, 4, "pack.warn-at", "pack.warn-at"],
  [2, 16, "pack.warn-at", "pack.warn-at"],
  [4, 3, "arm", "arm"],
  [5, 17, "arm", "arm"],
  [7, 4, "pack-volts", "pack-volts"],
  [8, 8, "amps", "amps"],
])("line %i, column %i leads to the page of %s by a command of the client", async (line, column, name) => {
  const link = await linkAt(line, column, command);
  expect(link).toBe(`${name} command:fettle.showPage?${encodeURIComponent(JSON.stringify([name]))}`);
});

test("a client that keeps pages on the web is given an address there, by kind and name", async () => {
  const link = await linkAt(2, 4, { pageBase: "https://pages.example/fettle" });
  expect(link).toBe("pack.warn-at https://pages.example/fettle/setting/pack.warn-at.md");
});

test("there is no link for who cannot follow it, nor from what has no page", async () => {
  expect(await linkAt(2, 4)).toBeUndefined();
  session.end();
  expect(await linkAt(2, 4, { pageBase: "fettle-page:/" })).toBeUndefined();
  session.end();
  expect(await linkAt(10, 3, command)).toBeUndefined();
});
