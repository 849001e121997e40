/** Which part of the project may import which: the one place that says it. */

const shared = (...parts: string[]) => parts.map((part) => `shared/${part}/`);

const model = shared("model", "syntax", "catalogue");
const core = [...model, ...shared("protocol", "logic", "osd", "numbers")];

/** Each folder with the folders of the project that its files may import besides itself. A folder that is not here may import none. */
const allowed: readonly (readonly [folder: string, may: readonly string[]])[] = [
  ["shared/syntax/", []],
  ["shared/catalogue/", []],
  ["shared/protocol/", []],
  ["shared/model/", model],
  ["shared/logic/", model],
  ["shared/osd/", [...model, ...shared("protocol")]],
  ["shared/numbers/", model],
  ["shared/draw/", shared("protocol")],
  ["shared/rules/", core],
  ["shared/ide/", ["shared/"]],
  ["server/src/lsp/", ["shared/"]],
  ["server/src/cli/", ["shared/", "server/src/node/"]],
  ["server/src/node/", ["shared/", "server/src/lsp/"]],
  ["client/src/", shared("protocol", "draw")],
  ["client/panel/", shared("protocol", "draw")],
  // Scripts and tests may look at everything.
  [".dev/", [""]],
  ["tests/", [""]],
];

/** Packages that shared may import, and where. */
const sharedPackages: Readonly<Record<string, RegExp>> = {
  zod: /^shared\/catalogue\/types\.ts$/,
  "zod/mini": /^shared\/catalogue\/(schema|own-files)\.ts$/,
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
  const rule = allowed.find(([folder]) => path.startsWith(folder));
  return rule ? [rule[0], ...rule[1]].some((folder) => imported.startsWith(folder)) : false;
}
