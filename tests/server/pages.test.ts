/** Links from hovers and findings, in each way in which a client can follow them, and what its page of names asks. */
import { afterEach, expect, test } from "vitest";
import type { Hover } from "vscode-languageserver/node";
import { asUri } from "../../shared/protocol/addresses.ts";
import {
  NAMES_REQUEST,
  type NamesParams,
  type NamesResult,
  PAGE_REQUEST,
  type PageView,
} from "../../shared/protocol/pages.ts";
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
  return /\[Explain (.*)\]\((.*)\)$/.exec(value)?.slice(1).join(" ");
}

const command = { pageCommand: "fettle.showPage" };

test.each([
  [1, 1, "section/pack"],
  [2, 4, "setting/pack.warn-at"],
  [2, 11, "setting/pack.warn-at"],
  [2, 16, "unit/V/cell"],
  [4, 3, "mode/arm"],
  [5, 17, "mode/arm"],
  [7, 4, "element/pack-volts"],
  [8, 8, "element/amps"],
  [10, 3, "section/outputs"],
  [0, 2, "word/craft"],
])("line %i, column %i leads to %s by a command of the client", async (line, column, address) => {
  const link = await linkAt(line, column, command);
  const name = address.slice(address.indexOf("/") + 1);
  expect(link).toBe(`${name} command:fettle.showPage?${encodeURIComponent(JSON.stringify([address]))}`);
});

test("a value's line is a link, by a command of the client or by its address", async () => {
  const hoverOf = async (options?: unknown) => {
    session = await startSession(filesInMemory({}), PULLING, options);
    await session.open(uri, text);
    const at = { textDocument: { uri }, position: { line: 2, character: 4 } };
    const hover: Hover | null = await session.client.sendRequest("textDocument/hover", at);
    return (hover!.contents as { value: string }).value;
  };
  const place = encodeURIComponent(JSON.stringify([{ file: uri, line: 2 }]));
  expect(await hoverOf({ lineCommand: "fettle.showLine" })).toMatch(
    /^\*\*`3\.5 V\/cell`\*\* on Jug, \[jug\.fettle:3\]/,
  );
  session.end();
  expect(await hoverOf({ lineCommand: "fettle.showLine" })).toContain(`(command:fettle.showLine?${place})`);
  session.end();
  expect(await hoverOf()).toContain(`[jug.fettle:3](${uri}#L3)`);
});

test("a finding's code leads to the page of its rule, by an address as no editor follows a command there", async () => {
  const pageLinkForm = "fettle-page:/{page}.fettle-page";
  session = await startSession(filesInMemory({}), PULLING, { ...command, pageLinkForm });
  await session.open(uri, 'craft "Jug"\nteapot\n');
  const [found] = await session.pull(uri);
  expect(found?.codeDescription?.href).toBe("fettle-page:/rule/unknown-name.fettle-page");
});

test("names are listed, searched, and found under the cursor; there is a page of everything that is asked for", async () => {
  session = await startSession(filesInMemory({ "/shed/own.aliases.json": '{ "aliases": { "squealer": "finder" } }' }));
  await session.open(uri, text);
  const names = (params: NamesParams) => session.client.sendRequest<NamesResult>(NAMES_REQUEST, params);
  const all = await names({ typed: "", at: { uri: asUri(uri), line: 2, character: 4 } });
  expect(all.names.length).toBeGreaterThan(650);
  expect(all.here).toMatchObject({ kind: "setting", name: "pack.warn-at" });
  expect((await names({ typed: "low battery warning" })).names[0]).toMatchObject({ name: "pack.warn-at" });
  expect((await names({ typed: "squealer" })).names[0]).toMatchObject({ name: "finder" });
  expect((await names({ typed: "zzzzz" })).names).toEqual([]);
  expect(all.names.filter(({ summary }) => /[`*]/.test(summary))).toEqual([]);
  const page = (name: string) => session.client.sendRequest<PageView>(PAGE_REQUEST, { name });
  expect(await page("mode/arm")).toMatchObject({ asked: "mode/arm", title: "arm" });
  expect((await page("wran-at")).html).toContain('<a href="#setting/pack.warn-at">');
});

test("a client that keeps pages on the web is given an address there, by kind and name", async () => {
  const link = await linkAt(2, 4, { pageBase: "https://pages.example/fettle" });
  expect(link).toBe("pack.warn-at https://pages.example/fettle/setting/pack.warn-at.md");
});

test("there is no link for who cannot follow it", async () => {
  expect(await linkAt(2, 4)).toBeUndefined();
  session.end();
  expect(await linkAt(2, 4, { pageBase: "fettle-page:/" })).toBeUndefined();
});
