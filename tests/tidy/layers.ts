/** Which part of the project may import which: the one place that says it. */

const shared = (...parts: string[]) => parts.map((part) => `shared/${part}/`);

/** What depends on nothing and serves everybody. */
const text = shared("text");
const model = [...text, ...shared("model", "syntax", "catalogue")];
const core = [...model, ...shared("protocol", "logic", "osd", "numbers", "loss", "dialect")];
/** Everything below what an editor, a terminal and a page ask for. */
const belowIde = [...core, ...shared("draw", "rules")];

/** Each folder with the folders of the project that its files may import besides itself. A folder that is not here may import none. */
const allowed: readonly (readonly [folder: string, may: readonly string[]])[] = [
  ["shared/text/", []],
  ["shared/syntax/", []],
  ["shared/catalogue/", []],
  ["shared/protocol/", []],
  ["shared/model/", model],
  ["shared/logic/", model],
  ["shared/osd/", [...model, ...shared("protocol")]],
  ["shared/numbers/", model],
  ["shared/loss/", [...model, ...shared("protocol", "logic", "numbers")]],
  // Below the rules, since what a board cannot be told is a finding.
  ["shared/dialect/", [...model, ...shared("logic", "osd", "numbers")]],
  ["shared/draw/", [...text, ...shared("protocol")]],
  // The engine alone knows which rules there are; a rule knows no other rule, nor who runs it.
  ["shared/rules/all/", [...core, "shared/rules/lib/", "shared/rules/engine/rule.ts"]],
  ["shared/rules/lib/", [...core, "shared/rules/engine/rule.ts"]],
  ["shared/rules/engine/", [...core, ...shared("rules")]],
  ["shared/ide/", belowIde],
  ["server/src/lsp/", ["shared/"]],
  ["server/src/cli/", ["shared/", "server/src/node/"]],
  ["server/src/node/", ["shared/", "server/src/lsp/"]],
  ["client/src/", [...text, ...shared("protocol", "draw")]],
  ["client/panel/", [...text, ...shared("protocol", "draw")]],
  // Scripts and tests may look at everything.
  [".dev/", [""]],
  ["tests/", [""]],
];

interface Capability {
  /** The files that other folders and programs may import; the rest are helpers. */
  readonly doors: readonly string[];
  /** The folders of `shared/ide` whose doors it may import. */
  readonly uses?: readonly string[];
}

/** The folders of `shared/ide`. Of `context` every file is a door, of `editor` each file is one request. */
export const capabilities: Readonly<Record<string, Capability>> = {
  context: {
    doors: [
      "canonical-text",
      "cursor-context",
      "describe",
      "effective-entry",
      "format",
      "hover-words",
      "known-controls",
      "markdown",
      "missing-parts",
      "mode-states",
      "picked-craft",
      "relation-lines",
      "trial",
    ],
  },
  consequences: { doors: ["consequences"], uses: ["context"] },
  "dialect-files": {
    doors: ["code-uses", "examples", "fact-line", "fact-pieces", "slot-uses", "spellings", "words"],
  },
  hover: { doors: ["hover"], uses: ["context", "consequences", "dialect-files", "origin", "reference"] },
  editor: {
    doors: [
      "colours",
      "definition",
      "fixes",
      "folding",
      "hints",
      "lenses",
      "links",
      "symbols",
      "tokens",
      "definition-target",
      "script-symbol",
    ],
    uses: ["context", "consequences", "dialect-files"],
  },
  completion: { doors: ["complete"], uses: ["context", "dialect-files"] },
  signature: { doors: ["signature"], uses: ["context"] },
  edits: {
    doors: [
      "acceptances",
      "adopt",
      "bench-edit",
      "calibration",
      "insertions",
      "map-controls",
      "motor-edit",
      "mapping-rows",
      "new-layer-file",
      "osd-beginnings",
      "osd-edit",
      "osd-write",
      "script-edits",
      "use-line",
      "use-lines",
    ],
    uses: ["context", "compare"],
  },
  names: {
    doors: ["linked", "references", "rename", "rename-file", "renamed"],
    uses: ["context", "dialect-files", "edits"],
  },
  origin: {
    doors: ["inline", "layers-for", "move", "name-at", "offers", "origin", "override"],
    uses: ["compare", "context", "edits"],
  },
  merge: { doors: ["merge"], uses: ["compare"] },
  board: {
    doors: ["board-offer", "board-script", "line-words", "name-line", "names", "remarks", "states"],
    uses: ["context", "edits", "reference", "review"],
  },
  fleet: { doors: ["fleet", "fleet-page"], uses: ["context", "print"] },
  "fleet-edits": {
    doors: ["alike", "change-core", "change-habit", "habits", "new-condition"],
    uses: ["compare", "context", "edits", "review"],
  },
  format: { doors: ["format", "organize"] },
  compare: { doors: ["compare", "conditions", "meaning", "rows", "sides", "words"], uses: ["context"] },
  review: { doors: ["carry", "danger", "hidden", "offer", "review"], uses: ["compare", "context", "edits", "reports"] },
  arming: { doors: ["readiness", "parse-positions", "summary"], uses: ["context"] },
  panel: { doors: ["motors", "other-craft", "panel", "pictures"], uses: ["arming", "compare", "context", "edits"] },
  reference: {
    doors: ["page", "page-name-at", "page-names", "page-view", "reference", "search"],
    uses: ["context", "dialect-files", "editor"],
  },
  reports: {
    doors: [
      "board-report",
      "check-report",
      "effective-craft",
      "effective-notes",
      "effective-rows",
      "effective-script",
      "missing-report",
      "switch-map",
    ],
    uses: ["context"],
  },
  "board-move": { doors: ["board-move"], uses: ["context"] },
  changes: { doors: ["diff-text", "identity", "since"] },
  share: { doors: ["share", "share-report"], uses: ["compare", "context", "reports"] },
  "new-craft": { doors: ["new-craft", "questions", "answers", "choices", "script-text"], uses: ["context"] },
  "new-handset": { doors: ["new-handset", "questions", "answers"], uses: ["context", "new-craft"] },
  history: {
    doors: ["history", "history-report", "past-value", "value-names"],
    uses: ["compare", "context", "reference"],
  },
  "own-words": { doors: ["own-words"] },
  print: { doors: ["page", "shown-text"] },
  bench: {
    doors: [
      "bench-file",
      "bench-list",
      "bench-markdown",
      "bench-page",
      "bench-picture",
      "bench-report",
      "put-back",
      "sheet-pictures",
    ],
    uses: ["context", "panel", "print"],
  },
  structure: {
    doors: ["calls", "fix-all", "selections", "used-files", "workspace-symbols"],
    uses: ["context", "dialect-files", "edits", "editor", "reference"],
  },
  "workspace-tree": { doors: ["workspace-tree", "craft-status"], uses: ["arming", "context"] },
};

/** Packages that shared may import, and where. */
const sharedPackages: Readonly<Record<string, RegExp>> = {
  zod: /^shared\/catalogue\/specs\.ts$/,
  "zod/mini": /^shared\/catalogue\/(schema|own-files)\.ts$/,
  dequal: /^shared\/logic\//,
  "jsonc-parser": /^shared\/ide\/own-words\/json-text\.ts$/,
  "fastest-levenshtein": /^shared\//,
  "color-name": /^shared\//,
};

/** True where a file may import what it imports, given as the tidy test resolves it. */
export function mayImport(path: string, imported: string): boolean {
  if (/^(shared|server|client|tests|\.dev)\//.test(imported)) return mayReach(path, imported);
  if (path.startsWith("shared/")) return sharedPackages[imported]?.test(path) ?? false;
  if (imported.startsWith("node:")) return !/^(client\/panel\/|client\/src\/(?!node)|server\/src\/lsp\/)/.test(path);
  if (imported === "vscode") return path.startsWith("client/src/");
  return true;
}

function mayReach(path: string, imported: string): boolean {
  const target = partOf(imported);
  if (target && !/^(tests|\.dev)\//.test(path)) return mayEnter(path, target);
  const rule = allowed.find(([folder]) => path.startsWith(folder));
  if (!rule) return false;
  const [folder, may] = rule;
  // From rule to rule there is no way, though they share a folder.
  const own = folder === "shared/rules/all/" ? [] : [folder];
  return [...own, ...may].some((each) => imported.startsWith(each));
}

interface Part {
  readonly capability: string;
  readonly file: string;
}

/** Where in `shared/ide` a file stands; null for files elsewhere. */
function partOf(path: string): Part | null {
  const match = /^shared\/ide\/([^/]+)\/(.+?)(?:\.generated)?\.ts$/.exec(path);
  return match ? { capability: match[1]!, file: match[2]! } : null;
}

/** Inside its own folder a file imports what it likes; from elsewhere only doors, and from `shared/ide` only those of folders it uses. */
function mayEnter(path: string, { capability, file }: Part): boolean {
  const from = partOf(path)?.capability;
  const target = capabilities[capability];
  if (!target) return false;
  if (from === capability) return true;
  if (!target.doors.includes(file)) return false;
  return from ? (capabilities[from]?.uses ?? []).includes(capability) : path.startsWith("server/");
}
