/** Which documents show a script of the past, and of which commit. */
import { expect, test, vi } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import { otherAddress } from "../../shared/protocol/other-texts.ts";

vi.mock("vscode", () => ({ Uri: { file: (path: string) => ({ toString: () => `file://${path}` }) } }));

const { pastIn } = await import("../../client/src/past-documents.ts");

function shown(scheme: string, query: string, languageId = "fettle") {
  return pastIn({ languageId, uri: { scheme, query } } as Parameters<typeof pastIn>[0]);
}

const ofGit = (ref: unknown, path: unknown = "/shed/jug.fettle") => shown("git", JSON.stringify({ path, ref }));

test("a document of the git extension says its file and its revision, and what is staged is the empty one", () => {
  expect(ofGit("HEAD")).toEqual({ uri: "file:///shed/jug.fettle", revision: "HEAD" });
  expect(ofGit("~")).toEqual({ uri: "file:///shed/jug.fettle", revision: "" });
  expect(ofGit("")).toEqual({ uri: "file:///shed/jug.fettle", revision: "" });
});

test("so does a text of our own that is of a revision, and one that lies nowhere is of no past", () => {
  const query = (text: Parameters<typeof otherAddress>[0]) => decodeURIComponent(otherAddress(text).split("?")[1]!);
  const text = { uri: asUri("file:///shed/jug.fettle"), revision: "1111111111" };
  expect(shown("fettle-other", query(text))).toEqual(text);
  expect(shown("fettle-other", query({ key: "a-b", name: "the clipboard" }))).toBeUndefined();
});

test("anything else shows what is now, whatever its address holds", () => {
  expect(shown("file", "")).toBeUndefined();
  expect(shown("git", "no json")).toBeUndefined();
  expect(ofGit(7)).toBeUndefined();
  expect(ofGit("HEAD", null)).toBeUndefined();
  expect(shown("git", JSON.stringify({ path: "/a.txt", ref: "HEAD" }), "plaintext")).toBeUndefined();
  expect(pastIn(undefined)).toBeUndefined();
});
