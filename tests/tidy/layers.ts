/** Which part of the project may import which: the one place that says it. */

const shared = (...parts: string[]) => parts.map((part) => `shared/${part}/`);

const model = shared("model", "syntax", "catalogue");
const onModel = [...model, ...shared("protocol")];
const core = [...onModel, ...shared("logic", "osd", "numbers")];

/** Each folder with the folders of the project that its files may import besides itself; the first that fits counts. */
const allowed: readonly (readonly [folder: string, may: readonly string[]])[] = [
  ["shared/syntax/", []],
  ["shared/catalogue/", []],
  ["shared/protocol/", []],
  ["shared/model/", model],
  ["shared/logic/", onModel],
  ["shared/osd/", onModel],
  ["shared/numbers/", onModel],
  ["shared/draw/", shared("protocol")],
  ["shared/rules/", core],
  ["shared/services/", ["shared/"]],
  ["shared/dialect/", ["shared/"]],
  ["server/src/lsp/", ["shared/"]],
  ["server/src/cli/", ["shared/", "server/src/node/"]],
  ["server/src/node/", ["shared/", "server/src/lsp/"]],
  ["client/src/", shared("protocol", "draw")],
  ["client/panel/", shared("protocol", "draw")],
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
  if (!rule) return true;
  const [own, may] = rule;
  return [own, ...may].some((folder) => imported.startsWith(folder));
}
