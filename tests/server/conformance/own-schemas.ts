/** JSON Schemas of the requests that this project adds to the protocol, made from their types in `shared/protocol`. */
import { readdirSync, readFileSync } from "node:fs";
import { inProject } from "../../../.dev/say.mjs";
import { aliasOf, type Judge, judgeBy, keptSchemas, type Schemas } from "./kept-schemas.ts";

interface Types {
  /** The file in `shared/protocol` that has the types; a type of another one is spelled FILE.TYPE. */
  readonly in: string;
  readonly params: string;
  readonly result: string;
}

/** By method what a client sends and gets. `own-schemas.test.ts` says which is missing. */
export const OWN_TYPES: Readonly<Record<string, Types>> = {
  "fettle/alikeLayers": { in: "fleet-change", params: "AlikeLayersParams", result: "AlikeLayersResult" },
  "fettle/benchEdit": { in: "bench-edit", params: "BenchEditParams", result: "BenchEditResult" },
  "fettle/benchFile": { in: "bench-file", params: "BenchFileParams", result: "BenchFileResult" },
  "fettle/benchReading": { in: "bench-edit", params: "BenchReadingParams", result: "BenchTrial" },
  "fettle/boardDialects": { in: "board", params: "{}", result: "BoardDialectsResult" },
  "fettle/boardLine": { in: "board", params: "BoardLineParams", result: "BoardLineResult" },
  "fettle/boardMoved": { in: "board", params: "BoardMovedParams", result: "BoardMovedResult" },
  "fettle/boardNames": { in: "board", params: "BoardNamesParams", result: "BoardNamesResult" },
  "fettle/boardOf": { in: "board", params: "BoardOfParams", result: "BoardOfResult" },
  "fettle/boardRead": { in: "board", params: "BoardReadParams", result: "BoardReadResult" },
  "fettle/boardText": { in: "board", params: "BoardText", result: "BoardTextResult" },
  "fettle/boardWrite": { in: "board", params: "BoardWriteParams", result: "BoardWriteResult" },
  "fettle/changeHabit": { in: "fleet-change", params: "ChangeHabitParams", result: "FleetChangeResult" },
  "fettle/compare": { in: "compare", params: "CompareParams", result: "CompareResult" },
  "fettle/effective": { in: "effective", params: "EffectiveParams", result: "EffectiveText | null" },
  "fettle/fleet": { in: "fleet-messages", params: "FleetParams", result: "FleetResult | null" },
  "fettle/habitCondition": { in: "fleet-change", params: "HabitConditionParams", result: "HabitConditionResult" },
  "fettle/habits": { in: "fleet-change", params: "{}", result: "HabitsResult" },
  "fettle/history": { in: "history", params: "HistoryParams", result: "HistoryResult" },
  "fettle/insert": { in: "ways", params: "InsertParams", result: "InsertResult" },
  "fettle/layersFor": { in: "origin", params: "LayersForParams", result: "LayersForResult" },
  "fettle/makeAlike": { in: "fleet-change", params: "MakeAlikeParams", result: "FleetChangeResult" },
  "fettle/mapControls": { in: "map-controls", params: "MapControlsParams", result: "MapControlsResult" },
  "fettle/motorEdit": { in: "motor-edit", params: "MotorEditParams", result: "MotorEditResult" },
  "fettle/nameLine": { in: "board", params: "NameLineParams", result: "NameLineResult" },
  "fettle/names": { in: "pages", params: "NamesParams", result: "NamesResult" },
  "fettle/newCraft": { in: "new-craft", params: "NewCraftParams", result: "NewCraftResult | null" },
  "fettle/newHandset": { in: "new-handset", params: "NewHandsetParams", result: "NewHandsetResult | null" },
  "fettle/origin": { in: "origin", params: "OriginParams", result: "OriginResult" },
  "fettle/osdEdit": { in: "osd-edit", params: "OsdEditParams", result: "OsdEditResult" },
  "fettle/page": { in: "pages", params: "PageParams", result: "PageView | null" },
  "fettle/panel": { in: "panel", params: "PanelParams", result: "PanelModel | null" },
  "fettle/relocate": { in: "origin", params: "RelocateParams", result: "RelocateResult" },
  "fettle/review": { in: "review", params: "ReviewParams", result: "ReviewResult" },
  "fettle/scripts": { in: "ways", params: "ScriptsParams", result: "ScriptsResult" },
  "fettle/share": { in: "share", params: "ShareParams", result: "ShareResult" },
  "fettle/status": { in: "status", params: "StatusParams", result: "CraftStatus | null" },
  "fettle/take": { in: "compare", params: "TakeParams", result: "TakeResult" },
  "fettle/useLines": { in: "use-lines", params: "UseLinesParams", result: "UseLinesResult | null" },
  "fettle/workspaceTree": { in: "workspace-tree", params: "TreeParams", result: "WorkspaceTree | null" },
};

const FOLDER = "shared/protocol";
const files = readdirSync(inProject(FOLDER)).filter((name) => name.endsWith(".ts"));
const textOf = (file: string) => readFileSync(inProject(`${FOLDER}/${file}`), "utf8");

/** Every request that the types declare, by who may send it. */
export function declaredRequests(): string[] {
  return files.flatMap((file) =>
    [...textOf(file).matchAll(/_REQUEST = "(fettle\/\w+)"/g)].map(([, method]) => method!),
  );
}

const namespaceOf = (file: string) => `In_${file.replaceAll(/\W/g, "_")}`;
const WORDS_OF_LANGUAGE = new Set(["null"]);

/** Made once for the texts of `shared/protocol`. */
export function ownSchemas(): Schemas {
  const imports = files.map(
    (file) =>
      `import type * as ${namespaceOf(file.replace(/\.ts$/, ""))} from ${JSON.stringify(inProject(`${FOLDER}/${file}`))};`,
  );
  const aliases = Object.entries(OWN_TYPES).flatMap(([method, types]) =>
    (["params", "result"] as const).map((part) => {
      const type = types[part].replaceAll(/\w+/g, (word) =>
        WORDS_OF_LANGUAGE.has(word) ? word : `${namespaceOf(types.in)}.${word}`,
      );
      return `export type ${aliasOf(method, part)} = ${type};`;
    }),
  );
  return keptSchemas({
    folder: "own-schemas",
    source: [...imports, ...aliases, ""].join("\n"),
    dependsOn: files.map(textOf).join("\n"),
    exact: { Uri: { type: "string", pattern: "^[A-Za-z][A-Za-z0-9+.-]*:" } },
  });
}

/** Holds what crosses in requests of our own to their types. */
export function ownJudge(): Judge {
  return judgeBy(ownSchemas());
}
