/** Addresses and paths: made of each other in one place, and never taken for one another. */
import { expect, expectTypeOf, test } from "vitest";
import type { Documents } from "../../server/src/lsp/documents.ts";
import type { Addressed } from "../../server/src/lsp/guard.ts";
import { foldersOf, pathOf, uriOf } from "../../server/src/lsp/paths.ts";
import { isScriptFile } from "../../shared/model/file-names.ts";
import type { FilePath, FileView } from "../../shared/model/files.ts";
import type { Workspace } from "../../shared/model/workspace.ts";
import { asUri, type Uri } from "../../shared/protocol/addresses.ts";
import { addressOfOther } from "../../shared/protocol/other-texts.ts";

/** Never run: the compiler says what may be passed for what. */
function passes(uri: Uri, path: FilePath, sent: string, documents: Documents, view: FileView, workspace: Workspace) {
  pathOf(uri);
  uriOf(path);
  documents.load(uri);
  view.read(path);
  // Tests and examples may write a path as it is.
  view.read("/shed/jug.fettle");

  // @ts-expect-error A path has none behind it.
  pathOf(path);
  // @ts-expect-error What a client sent is no address before it is said to be one.
  pathOf(sent);
  // @ts-expect-error An address has no address.
  uriOf(uri);
  // @ts-expect-error The editor does not know a document by its path.
  documents.load(path);
  // @ts-expect-error
  documents.version(path);
  // @ts-expect-error The core knows no addresses.
  view.read(uri);
  // @ts-expect-error
  workspace.script(uri);
  // @ts-expect-error
  workspace.craft(uri);
  // @ts-expect-error
  isScriptFile(uri);
}

test("the compiler tells one from the other", () => {
  expect(passes).toBeTypeOf("function");
  type Sent = { readonly textDocument: { readonly uri: string; readonly version: number } };
  expectTypeOf<Addressed<Sent>["textDocument"]["uri"]>().toEqualTypeOf<Uri>();
  expectTypeOf<Addressed<Sent>["textDocument"]["version"]>().toEqualTypeOf<number>();
});

test.each([
  ["file:///shed/my%20jug.fettle", "/shed/my jug.fettle"],
  ["file:///c%3A/shed/jug.fettle", "c:/shed/jug.fettle"],
  ["file:///C:/shed/jug.fettle", "c:/shed/jug.fettle"],
  ["file://pottery/shed/jug.fettle", "//pottery/shed/jug.fettle"],
  ["vscode-test-web://mount/shed/jug%C3%A4.fettle", "vscode-test-web://mount/shed/jugä.fettle"],
  ["untitled:Untitled-1", "untitled:Untitled-1"],
  ["file:///shed/100%.fettle", "/shed/100%.fettle"],
])("%s is %s, and the address of that leads back", (uri, path) => {
  expect(pathOf(asUri(uri))).toBe(path);
  expect(pathOf(uriOf(path))).toBe(path);
});

test("a client's folders are its workspace folders, else its root, by address or by path", () => {
  const [shed, barn] = ["file:///shed", "file:///barn%20two"];
  const two = [shed, barn].map((uri) => ({ uri, name: "" }));
  expect(foldersOf({ workspaceFolders: two, rootUri: "file:///other", rootPath: "/other" })).toEqual([shed, barn]);
  expect(foldersOf({ workspaceFolders: [], rootUri: shed })).toEqual([]);
  expect(foldersOf({ workspaceFolders: null, rootUri: shed, rootPath: "/other" })).toEqual([shed]);
  expect(foldersOf({ rootUri: null, rootPath: "/barn two" })).toEqual([barn]);
  expect(foldersOf({ rootPath: "C:\\shed" })).toEqual(["file:///C%3A/shed"]);
  expect(foldersOf({ rootUri: null })).toEqual([]);
});

test("half of a surrogate pair, as a name that was cut has, is no reason to have no address", () => {
  const half = "\u{1F600}".slice(0, 1);
  expect(uriOf(`/shed/${half}.fettle`)).toBe("file:///shed/%EF%BF%BD.fettle");
  const text = addressOfOther({ kind: "text", text: "", name: `mail ${half}` });
  expect(text).toMatch(/^fettle-other:\/mail%20%EF%BF%BD\.fettle\?/);
  const revision = addressOfOther({ kind: "revision", uri: asUri("file:///shed/jug.fettle"), revision: half });
  expect(revision).toMatch(/^fettle-other:\/jug%20\(%EF%BF%BD\)\.fettle\?/);
});
