/** A burst: an editor, its files and its server under random and hostile work, and then everything compared. */
import { mkdirSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { RevisionParams, RevisionResult } from "../../../shared/protocol/compare.ts";
import { CLIENTS } from "../../server/conformance/clients.ts";
import { TABLE } from "../../server/conformance/table.ts";
import { type Random, randomOf } from "../random.ts";
import { type Client, offeredBy } from "./client.ts";
import { compare, type Question, questionsOn, type TokensBefore, tokensFault } from "./compare.ts";
import { actOn, asTold, type Disk, diskAt, freeName } from "./disk.ts";
import { type Editor, type FileEvent, startEditor } from "./editor.ts";
import { changesOf } from "./edits.ts";
import { makeGit } from "./git.ts";
import { randomParams, type Subject } from "./random-params.ts";
import { chosenTexts, strayText, TEXTS } from "./scene.ts";
import { randomSettings } from "./settings.ts";

/** What was done, all in all. */
export interface Tally {
  edits: number;
  requests: number;
  comparisons: number;
  kills: number;
  /** Every method that was asked, and every one that was offered. */
  readonly asked: Set<string>;
  readonly offered: Set<string>;
}

export const noTally = (): Tally => ({
  edits: 0,
  requests: 0,
  comparisons: 0,
  kills: 0,
  asked: new Set(),
  offered: new Set(),
});

/** The commands that an editor of ours names when it starts the server. */
const OPTIONS = Object.fromEntries(
  [
    "pageCommand",
    "lineCommand",
    "positionsCommand",
    "benchCommand",
    "acceptCommand",
    "originCommand",
    "lensCommand",
    "suggestCommand",
  ].map((name) => [name, `fettle.${name}`]),
);

/** Addresses of nothing that is open, or of nothing at all. */
const STRANGE = [
  "file:",
  "file:///",
  "file:///%zz",
  "file:///nowhere/none.fettle",
  "file://host/share/none.fettle",
  "file:///c%3A/shed/jug.fettle",
  "file:///C:/shed/jug.fettle",
  "file:///c:\\shed\\jug.fettle",
  "file:\\\\shed\\jug.fettle",
  "untitled:",
  "untitled:Untitled-1",
  "http://example.org/jug.fettle",
  "vscode-vfs://host/shed/jug.fettle",
  "git:/shed/jug.fettle?HEAD",
  "fettle-other:/x",
  "x:",
  "a+b.c-d:%00%0A",
];
/** Some of them are opened as well. */
const OPENED_STRANGE = [
  "untitled:Untitled-1",
  "vscode-vfs://host/shed/jug.fettle",
  "git:/shed/jug.fettle?HEAD",
  "file:///nowhere/none.fettle",
];

const MOST_OPEN = 7;
const MOST_PENDING = 16;

/** Works through the burst that `random` draws; gives what was found to be wrong, in words. */
export async function runBurst(program: string, folder: string, random: Random, tally: Tally): Promise<string[]> {
  const root = join(folder, "shed");
  mkdirSync(root);
  const isLinked = random.onceIn(4);
  if (isLinked) symlinkSync(root, join(folder, "link"));
  const disk = diskAt(root, isLinked ? join(folder, "link") : root);
  for (const [path, text] of chosenTexts(random)) disk.write(path, text);
  const other = diskAt(join(folder, "other"));
  for (const [path, text] of TEXTS) if (path.startsWith("sane/")) other.write(path, text);
  const git = random.onceIn(4) ? makeGit(root) : null;
  git?.commit();

  const folders = [disk, other].map((each, i) => ({ uri: each.uriOf("."), name: `folder ${i}` }));
  const own = { uri: folders[0]!.uri.replace(/\/\.$/, ""), name: "shed" };
  const further = { uri: folders[1]!.uri.replace(/\/\.$/, ""), name: "other" };
  const options = { draws: random.onceIn(2), checksJson: random.onceIn(2), ...(random.onceIn(2) && OPTIONS) };
  const abilities = random.onceIn(6) ? CLIENTS["only pushed findings"] : CLIENTS["all abilities"];
  const begun = { options, abilities, answers: { "fettle/revision": revision } };
  const editor = await startEditor(program, begun, [own], randomSettings(random));
  const clients: Client[] = [editor.client];
  try {
    const play = makePlay({ editor, disk, other, git, folders: [own, further], random, tally, clients });
    for (let steps = random.between(20, 160); steps > 0; steps--) await play.step();
    await play.settle();
    const faults = clients.flatMap((client) => client.faults());
    if (faults.length > 0) return faults;
    const fresh = await editor.another();
    clients.push(fresh);
    const documents = [...editor.documents.values()];
    const some = documents.length <= 2 ? documents : random.some(2, () => random.oneOf(documents));
    const questions: Question[] = [
      ...[
        ...editor.documents.keys(),
        ...disk
          .files()
          .filter((path) => path.endsWith(".fettle"))
          .slice(0, 6)
          .map(disk.uriOf),
      ].map((uri) => ({
        method: "textDocument/diagnostic",
        params: { textDocument: { uri } },
      })),
      ...some.flatMap((document) => questionsOn(document, play.subject(document.uri, random), random)),
      ...["", "a"].map((query) => ({ method: "workspace/symbol", params: { query } })),
      ...[true, false].map((findings) => ({ method: "fettle/workspaceTree", params: { findings } })),
      { method: "fettle/fleet", params: { known: null } },
      { method: "fettle/habits", params: {} },
    ];
    const ofTokens: (string | null)[] = [];
    for (const [uri, before] of play.tokens()) ofTokens.push(await tokensFault(editor.client, fresh, uri, before));
    const { count, faults: found } = await compare(editor, fresh, questions, (uri) => play.textOf(uri));
    tally.comparisons += count + ofTokens.length;
    for (const { method } of questions) tally.asked.add(method);
    return [...found, ...ofTokens.filter((fault) => fault !== null), ...clients.flatMap((client) => client.faults())];
  } finally {
    for (const client of clients) await client.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the editor's git has of a file: always the same of the same revision. */
function revision({ uri, revision }: RevisionParams): RevisionResult {
  const text = TEXTS.get([...TEXTS.keys()][(uri.length + revision.length) % TEXTS.size]!)!;
  return revision.length % 3 === 0 ? { kind: "missing" } : { kind: "text", text };
}

interface Stage {
  readonly editor: Editor;
  readonly disk: Disk;
  readonly other: Disk;
  readonly git: ReturnType<typeof makeGit> | null;
  readonly folders: readonly { readonly uri: string; readonly name: string }[];
  readonly random: Random;
  readonly tally: Tally;
  /** Every server that was started, the last one last. */
  readonly clients: Client[];
}

function makePlay({ editor, disk, other, git, folders, random, tally, clients }: Stage) {
  const pending = new Set<Promise<unknown>>();
  const untold: FileEvent[] = [];
  const results = new Map<string, object[]>();
  const tokens = new Map<string, TokensBefore>();
  let token = 0;
  /** What depends on answers, which come when they come, draws apart: the rest of the case stays the same. */
  const apart = () => randomOf(random.below(2 ** 30), 0);

  const uris = () => [...editor.documents.keys()];
  const isOpen = (path: string) => editor.documents.has(disk.uriOf(path));
  const textOf = (uri: string): TextDocument | null => {
    const open = editor.documents.get(uri);
    if (open) return open;
    try {
      return TextDocument.create(uri, "fettle", 0, readFileSync(fileURLToPath(uri), "utf8").replace(/^\uFEFF/, ""));
    } catch {
      return null;
    }
  };
  const anyUri = (random: Random): string => {
    const files = disk.files();
    const kind = random.below(10);
    if (kind < 4 && files.length > 0) return disk.uriOf(random.oneOf(files));
    if (kind < 6 && editor.documents.size > 0) return random.oneOf(uris());
    if (kind < 7 && files.length > 0)
      return `${disk.uriOf(random.oneOf(files))}${random.oneOf(["?x=1", "#2", "/", "%", "%2e", "/../x.fettle"])}`;
    if (kind < 8)
      return random.oneOf([
        folders[0]!.uri,
        `${folders[0]!.uri}/examples`,
        disk.uriOf("none.fettle"),
        other.uriOf("sane/whoop.fettle"),
      ]);
    return random.oneOf(STRANGE);
  };
  const subject = (uri: string, dice: Random): Subject => ({
    uri,
    text: editor.documents.get(uri)?.getText() ?? textOf(uri)?.getText() ?? "",
    otherUri: () => anyUri(dice),
    known: [...results.values()].flat().slice(-40),
  });

  const open = () => {
    if (editor.documents.size >= MOST_OPEN) return;
    const files = disk.files();
    const uri = random.onceIn(9) || files.length === 0 ? random.oneOf(OPENED_STRANGE) : disk.uriOf(random.oneOf(files));
    if (editor.documents.has(uri) || uri.endsWith(".txt")) return;
    const onDisk = uri.startsWith("file:///nowhere") ? null : textOf(uri)?.getText();
    editor.open(
      uri,
      onDisk ?? random.oneOf([strayText(random), random.oneOf([...TEXTS.values()])]),
      random.oneOf([0, 1, 1, 1, 7]),
    );
  };
  const edit = () => {
    if (editor.documents.size === 0) return open();
    const uri = random.oneOf(uris());
    const document = editor.documents.get(uri)!;
    const apply = (text: string, change: Parameters<typeof TextDocument.update>[1][number]) =>
      TextDocument.update(TextDocument.create(uri, "x", 0, text), [change], 1).getText();
    const changes = changesOf(document.getText(), random, apply);
    tally.edits += changes.length;
    const version = random.onceIn(30) ? random.oneOf([0, 1, document.version, 2147483647]) : document.version + 1;
    editor.change(uri, changes, Math.min(version, 2147483647));
    return random.onceIn(3) ? asAfterKey(uri) : undefined;
  };
  /** What an editor asks after a key, so that what the server remembers is of many moments. */
  const asAfterKey = async (uri: string) => {
    const textDocument = { uri };
    if (editor.client.offers("textDocument/diagnostic")) await send("textDocument/diagnostic", { textDocument }, uri);
    await send("textDocument/semanticTokens/full", { textDocument }, uri);
  };
  const ask = async () => {
    const dice = apart();
    const methods = offeredBy(editor.client);
    for (const method of methods) tally.offered.add(method);
    // The one that stays open is asked by the editor itself: another would end it.
    const method = dice.oneOf(methods.filter((each) => each !== "workspace/diagnostic"));
    const uri = editor.documents.size > 0 && !dice.onceIn(4) ? dice.oneOf(uris()) : anyUri(dice);
    const known = results.get(method);
    const asks = TABLE[method]?.asks?.({ uri, text: textOf(uri)?.getText() ?? "" }) ?? [];
    const params =
      known && known.length > 0 && dice.onceIn(2)
        ? dice.oneOf(known)
        : asks.length > 0 && dice.onceIn(2)
          ? dice.oneOf(asks)
          : randomParams(method, subject(uri, dice), dice);
    await send(method, params, uri);
  };
  /** Sends a request, with tokens of progress and cancelled now and then; waits where many are under way. */
  const send = async (method: string, params: object, uri: string) => {
    const { client } = editor;
    const dice = apart();
    const given = {
      ...(dice.onceIn(6) && takesWork(method) && { workDoneToken: `work ${++token}` }),
      ...(dice.onceIn(6) && takesParts(method) && { partialResultToken: `parts ${++token}` }),
    };
    tally.requests++;
    tally.asked.add(method);
    const cancelled = dice.onceIn(5) ? dice.below(40) : null;
    const asked = client
      .ask(method, { ...params, ...given }, (id) => {
        if (cancelled !== null) setTimeout(() => client.wire.notify("$/cancelRequest", { id }), cancelled);
      })
      .then(({ result }) => {
        if (method === "textDocument/semanticTokens/full" && result?.resultId) tokens.set(uri, result);
        for (const { method: next, paramsOf } of TABLE[method]?.leadsTo ?? [])
          if (result && !("partialResultToken" in given))
            results.set(next, [...(results.get(next) ?? []), ...paramsOf(result, { uri, text: "" })].slice(-20));
      })
      .finally(() => pending.delete(asked));
    pending.add(asked);
    if (pending.size > MOST_PENDING) await Promise.race(pending);
  };
  const tell = () => {
    const count = random.onceIn(2) ? untold.length : random.below(untold.length + 1);
    if (count > 0) editor.tell(asTold(untold.splice(0, count), random));
  };
  const act = () => {
    untold.push(...actOn(random.onceIn(8) ? other : disk, random, isOpen));
    if (random.onceIn(2)) tell();
  };
  /** As an editor renames: it asks for edits, moves the file, tells, and has the document under its new address. */
  const rename = async () => {
    const files = disk.files();
    if (files.length === 0) return;
    const [from, to] = [random.oneOf(files), freeName(disk, random)];
    const moved = { files: [{ oldUri: disk.uriOf(from), newUri: disk.uriOf(to) }] };
    tally.requests++;
    await editor.client.ask("workspace/willRenameFiles", moved);
    const document = editor.documents.get(disk.uriOf(from));
    disk.rename(from, to);
    if (document) {
      editor.close(document.uri);
      editor.open(disk.uriOf(to), document.getText(), 1);
    }
    editor.client.wire.notify("workspace/didRenameFiles", moved);
    untold.push({ uri: disk.uriOf(from), type: 3 }, { uri: disk.uriOf(to), type: 1 });
  };
  const close = () => void (editor.documents.size > 0 && editor.close(random.oneOf(uris())));
  const save = () => {
    const saved = uris().filter((uri) => uri.startsWith(folders[0]!.uri));
    if (saved.length === 0) return;
    const uri = random.oneOf(saved);
    const path = decodeURIComponent(uri.slice(folders[0]!.uri.length + 1));
    const isThere = disk.read(path) !== null;
    try {
      disk.write(path, editor.documents.get(uri)!.getText());
    } catch {
      // A folder, or a file in place of the folder, has its name by now.
      return;
    }
    untold.push({ uri, type: isThere ? 2 : 1 });
    editor.client.wire.notify("textDocument/didSave", { textDocument: { uri } });
  };
  const kill = async () => {
    tally.kills++;
    await editor.restart();
    clients.push(editor.client);
  };
  const steps: readonly (readonly [weight: number, act: () => unknown])[] = [
    [45, edit],
    [34, ask],
    [14, act],
    [5, tell],
    [6, open],
    [3, close],
    [2, save],
    [2, rename],
    [0.5, kill],
    [0.5, () => editor.setFolders(random.oneOf([[folders[0]!], [...folders], [folders[1]!], []]))],
    [2, () => editor.setSettings(randomSettings(random))],
    [4, () => new Promise((resolve) => setTimeout(resolve, random.below(60)))],
    [git ? 2 : 0, () => git?.commit()],
    [1, () => editor.client.wire.notify("fettle/committed", {})],
  ];
  const drawn = steps.flatMap(([weight, act]) => random.some(2 * weight, () => act));
  return {
    subject,
    textOf,
    /** Tokens that an editor has of documents that are open now, be it of a server that was killed. */
    tokens: () => [...tokens].filter(([uri]) => editor.documents.has(uri)),
    step: async () => void (await random.oneOf(drawn)()),
    /** Tells what is not told yet, and waits for every answer. */
    async settle() {
      if (untold.length > 0) editor.tell(asTold(untold.splice(0), random));
      if (git) editor.client.wire.notify("fettle/committed", {});
      await Promise.all(pending);
      await editor.client.wire.settled();
    },
  };
}

const WORKS = /workspace\/symbol$|references|codeAction$|rename$/;
const takesWork = (method: string) => WORKS.test(method);
const takesParts = (method: string) =>
  /references|documentSymbol$|workspace\/symbol$|codeAction$|definition$|foldingRange$/.test(method);
