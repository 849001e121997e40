/**
 * Line ends of another system. Whatever is asked of scripts with them has the same answer, and no edit brings a line end
 * of another kind into them.
 */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const FOLDERS = ["examples", "tests/fixtures/faulty/kitchen"];
/** Every script of the demo, and of those with faults some. */
const TEXTS = FOLDERS.flatMap((folder) =>
  readdirSync(inProject(folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.(?:fettle|json|txt)$/.test(name) && !name.includes(".vscode"))
    .sort()
    .filter((_, i) => folder === "examples" || i % 6 === 0)
    .map((name): [string, string] => [`/shed/${name}`, readFileSync(inProject(`${folder}/${name}`), "utf8")]),
);

type Ask = (method: string, params: object) => Promise<unknown>;
/** The answers to some requests, each with what was asked. */
type Answers = Record<string, unknown>;

const uriOf = (path: string) => `file://${path}`;
const inFile = (path: string) => ({ textDocument: { uri: uriOf(path) } });
const spanOf = (first: number, last: number) => ({
  start: { line: first, character: 0 },
  end: { line: last, character: 0 },
});

const JUG = "/shed/craft/wobbly-jug.fettle";
const PIPKIN = "/shed/craft/pipkin.fettle";
const HABITS = "/shed/layers/habits.fettle";

/** What a pilot does in the panel, and what the editor asks on his behalf: the rest of the parameters by the request. */
const GESTURES: readonly (readonly [method: string, params: object])[] = [
  ...[JUG, PIPKIN].flatMap((path) =>
    [
      { kind: "add", element: "lap", column: 3, row: 3 },
      { kind: "move", element: "pack-volts", column: 4, row: 2 },
      { kind: "remove", element: "pack-volts" },
      { kind: "fit", columns: 53, rows: 20 },
      { kind: "begin", from: { kind: "usual", columns: 30, rows: 16 } },
      { kind: "begin", from: { kind: "layer", file: uriOf("/shed/layers/osd-wide.fettle") } },
      { kind: "begin", from: { kind: "craft", file: uriOf("/shed/craft/amphora.fettle") } },
    ].flatMap((gesture) =>
      ["there", "override"].flatMap((where) =>
        ["osd", "osd-second"].map((page) => ["osdEdit", { uri: uriOf(path), page, gesture, where }] as const),
      ),
    ),
  ),
  ...[JUG, PIPKIN].flatMap((path) =>
    [
      { kind: "place", motor: 1, place: "front-left" },
      { kind: "turn", motor: 2, direction: "clockwise" },
      { kind: "turn", motor: 3, direction: "anticlockwise" },
    ].flatMap((gesture) =>
      ["there", "override"].map((where) => ["motorEdit", { uri: uriOf(path), gesture, where }] as const),
    ),
  ),
  ...[JUG, PIPKIN].flatMap((path) =>
    [
      { kind: "day", check: "bench.motors-checked", day: "2026-11-29" },
      { kind: "day", check: "bench.order-checked", day: "2026-11-29" },
      { kind: "void", check: "bench.motors-checked" },
      { kind: "reading", name: "bench.roll", text: "988 2012" },
    ].map((gesture) => ["benchEdit", { uri: uriOf(path), gesture }] as const),
  ),
  ...["header", "rates", "pack", "filters", "loop-rate", "esc-signal", "arm-layout", "arm", "controls", "port gps"].map(
    (what) => ["insert", { uri: uriOf(PIPKIN), insert: { kind: "fill-in", what } }] as const,
  ),
  ["insert", { uri: uriOf("/shed/bare.fettle"), insert: { kind: "fill-in", what: "header" } }],
  ...[HABITS, "/shed/handsets/bellows.fettle"].flatMap((used) =>
    [PIPKIN, "/shed/alone.fettle", "/shed/ending.fettle", "/shed/short.fettle"].map(
      (path) => ["insert", { uri: uriOf(path), insert: { kind: "use", uri: uriOf(used) } }] as const,
    ),
  ),
  ...[PIPKIN, "/shed/alone.fettle", "/shed/ending.fettle", "/shed/short.fettle"].map(
    (path) =>
      [
        "mapControls",
        { uri: uriOf(path), handset: uriOf("/shed/handsets/bellows.fettle"), chosen: {}, layers: [] },
      ] as const,
  ),
  ...[JUG, PIPKIN].flatMap((path) =>
    [
      { kind: "extract", range: spanOf(6, 20), name: "Taken out" },
      { kind: "move", range: spanOf(6, 20), into: uriOf(HABITS) },
      ...[3, 4, 5].map((line) => ({ kind: "inline", line })),
    ].map((change) => ["relocate", { uri: uriOf(path), change }] as const),
  ),
  ...[6, 10, 14, 20, 30].map(
    (line) =>
      [
        "relocate",
        { uri: uriOf(HABITS), craft: uriOf(JUG), change: { kind: "override", position: { line, character: 3 } } },
      ] as const,
  ),
  ...[null, HABITS, "/shed/layers/new.fettle"].map(
    (into) =>
      [
        "review",
        {
          uri: uriOf(PIPKIN),
          offer: { kind: "file", uri: uriOf("/shed/craft/gravy-boat.fettle") },
          purpose: "review",
          chosen: null,
          mapping: {},
          into: into && uriOf(into),
          dialect: "loom",
        },
      ] as const,
  ),
  [
    "review",
    {
      uri: uriOf(PIPKIN),
      offer: {
        kind: "text",
        name: "paste",
        text: 'craft "Theirs"\n\n# why\n# so slow\nrates\n  # a note\n  # of two lines\n  roll  slope 90  end 400  bend 3\nfinder\n  tone 3\nnobody knows this\nnor this\n',
      },
      purpose: "review",
      chosen: ["rates.roll", "finder.tone", "line 11", "line 12"],
      mapping: {},
      into: null,
      dialect: "loom",
    },
  ],
  [
    "take",
    {
      uri: uriOf(PIPKIN),
      other: { kind: "file", uri: uriOf("/shed/craft/gravy-boat.fettle") },
      whats: [
        "pack.capacity",
        "rates.roll",
        "rates.pitch",
        "modes.level",
        "osd.pack-volts",
        "failsafe.hold-for",
        "gains.roll",
      ],
    },
  ],
  [
    "makeAlike",
    {
      example: uriOf(JUG),
      kinds: ["habits", "safety", "osd", "rates", "helpers", "pack", "link"],
      layers: [uriOf(HABITS)],
      leftOut: [],
    },
  ],
  [
    "changeHabit",
    { handset: uriOf("/shed/handsets/wheel.fettle"), mode: "arm", from: null, to: "TR is down", leftOut: [] },
  ],
  ["useLines", { kind: "delete", files: [{ uri: uriOf("/shed/layers") }] }],
  ["useLines", { kind: "move", files: [{ oldUri: uriOf("/shed/layers"), newUri: uriOf("/shed/other layers") }] }],
  ["share", { uri: uriOf(JUG), craft: uriOf(JUG) }],
  [
    "nameLine",
    {
      uri: uriOf("/shed/boards/loom.txt"),
      text: readFileSync(inProject("examples/boards/loom.txt"), "utf8"),
      dialect: uriOf("/shed/boards/loom.fettle"),
      line: 6,
      section: "pack",
      name: "capacity",
      value: "1300 mAh",
    },
  ],
];

/** Scripts that begin and end where none of the demo does. */
const SHORT: readonly [string, string][] = [
  ["/shed/bare.fettle", "pack\n  cells  4\n"],
  ["/shed/alone.fettle", 'craft "Alone"\n'],
  ["/shed/ending.fettle", 'craft "Ending"\n\nmodes\n  arm  when TL is down\n\nuse "layers/osd-wide.fettle"\n'],
  ["/shed/short.fettle", 'craft "Short"\n\nmodes\n  arm  when TL is down\n\nuse "handsets/wheel.fettle"\n'],
  ["/shed/tight.fettle", 'craft "Tight"\nuse "layers/habits.fettle"\npack\n  cells 6 capacity 1100 mAh'],
];

/** What is asked of every script: layout, actions, completion, renames, and what becomes of what it is used by. */
async function askOf(path: string, lines: readonly string[], ask: Ask): Promise<Answers> {
  const options = { tabSize: 2, insertSpaces: true };
  const answers: Answers = {};
  const put = async (method: string, params: object) => {
    answers[`${path} ${method} ${JSON.stringify(params)}`] = await ask(method, { ...inFile(path), ...params });
  };
  const last = lines.length;
  await put("textDocument/formatting", { options });
  await put("textDocument/rangeFormatting", { options, range: spanOf(2, 9) });
  await put("textDocument/codeAction", { range: spanOf(0, last), context: { diagnostics: [] } });
  for (let line = 1; line < last; line += Math.ceil(last / 6)) {
    const position = { line, character: Math.min(3, lines[line]!.length) };
    await put("textDocument/codeAction", { range: { start: position, end: position }, context: { diagnostics: [] } });
    await put("textDocument/completion", { position });
    await put("textDocument/onTypeFormatting", { position, ch: "\n", options });
    await put("textDocument/rename", { position, newName: "Other" });
  }
  const at = { files: [{ oldUri: uriOf(path), newUri: uriOf(path.replace(/(\w+)\.fettle$/, "moved/$1 too.fettle")) }] };
  await put("workspace/willRenameFiles", at);
  await put("workspace/willDeleteFiles", { files: [{ uri: uriOf(path) }] });
  return answers;
}

const CLIENT = {
  ...PULLING,
  workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ["create" as const] } },
};

/** Every answer over the same scripts, with one kind of line end; every third of them is open in the editor. */
async function answersWith(end: string, shape: (text: string) => string): Promise<Answers> {
  const texts = [...TEXTS, ...SHORT].map(([path, text]): [string, string] => [
    path,
    // One line alone has no line end to keep.
    (path.endsWith(".fettle") && text.includes("\n", text.indexOf("\n") + 1) ? shape(text) : text).replaceAll(
      "\n",
      end,
    ),
  ]);
  const session: Session = await startSession(filesInMemory(Object.fromEntries(texts)), CLIENT);
  const ask: Ask = (method, params) =>
    session.client.sendRequest(method, params).catch((error: Error) => `refused: ${error.message}`);
  const scripts = texts.filter(([path]) => path.endsWith(".fettle"));
  for (const [i, [path, text]] of scripts.entries()) if (i % 3 === 0) await session.open(uriOf(path), text);
  const all: Answers = {};
  for (const [path, text] of scripts) Object.assign(all, await askOf(path, text.split(end), ask));
  for (const [method, params] of GESTURES)
    all[`${method} ${JSON.stringify(params)}`] = await ask(`fettle/${method}`, params);
  expect(session.log).toEqual([]);
  session.end();
  return all;
}

// biome-ignore lint/suspicious/noExplicitAny: an answer is looked through for what is an edit of a text.
type Answer = any;

/** What the edits in an answer write, and the text of files that it makes. */
function written(answer: Answer): string[] {
  if (typeof answer !== "object" || answer === null) return [];
  const isEdit = answer.range !== undefined || (answer.file !== undefined && !answer.edits);
  const text = answer.newText ?? answer.snippet?.value ?? (isEdit ? answer.text : undefined);
  return [...(typeof text === "string" ? [text] : []), ...Object.values(answer).flatMap(written)];
}

const asLf = (answers: Answer): Answer => JSON.parse(JSON.stringify(answers).replace(/\\r\\n|\\r/g, "\\n"));

const SHAPES: Record<string, (text: string) => string> = {
  "as they are": (text) => text,
  "without a last line end": (text) => text.replace(/\n+$/, ""),
};

for (const [title, shape] of Object.entries(SHAPES))
  test(`scripts ${title}: the same answers with every kind of line end, and no edit that brings another kind`, async () => {
    const plain = await answersWith("\n", shape);
    const texts = Object.values(plain).flatMap(written);
    // What is asked has answers that write lines, of which each request ought to have some.
    expect(texts.filter((text) => text.includes("\n")).length).toBeGreaterThan(200);
    // Of the two, a lone CR is rare: it is tried where a last line end lacks, which is where an end is easily made up.
    for (const end of title === "as they are" ? ["\r\n"] : ["\r\n", "\r"]) {
      const answers = await answersWith(end, shape);
      const faults = Object.keys(plain).flatMap((asked) => {
        const others = written(answers[asked]).filter((text) => /[\r\n]/.test(text.replaceAll(end, "")));
        if (others.length > 0) return [`${asked} writes ${JSON.stringify(others)}`];
        return JSON.stringify(asLf(answers[asked])) === JSON.stringify(asLf(plain[asked])) ? [] : [`${asked} differs`];
      });
      expect(faults, JSON.stringify(end)).toEqual([]);
    }
  }, 120_000);
