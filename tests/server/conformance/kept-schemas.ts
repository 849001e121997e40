/** JSON Schemas made from types, which takes seconds, and kept for as long as the types are the same; and values held to them. */
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv, type ValidateFunction } from "ajv";
import { createGenerator } from "ts-json-schema-generator";
import { inProject } from "../../../.dev/say.mjs";

export interface Schemas {
  readonly definitions: Readonly<Record<string, Schema>>;
}

/** As much of JSON Schema as types become. */
export interface Schema {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema | readonly Schema[];
  readonly minItems?: number;
  readonly anyOf?: readonly Schema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
}

/** What of a message is held to a schema; a notification has params alone. */
export type Part = "params" | "result" | "partial" | "error" | "registration";

/** What is wrong with a value; null: nothing is. */
export type Judge = (method: string, part: Part, value: unknown) => string | null;

/** The name of the type that a part of a method has, among those of a source. */
export const aliasOf = (method: string, part: Part) => `M_${method.replaceAll(/[^A-Za-z]/g, "_")}_${part}`;

interface Made {
  /** The folder in `.cache` in which they are kept. */
  readonly folder: string;
  /** TypeScript that exports the types. */
  readonly source: string;
  /** Whatever else the schemas depend on, such as the texts of the files that the source imports. */
  readonly dependsOn: string;
  /** What takes the place of types that TypeScript knows less exactly. */
  readonly exact: Readonly<Record<string, object>>;
}

/** The schema of every exported type of a source, by its name. */
export function keptSchemas({ folder: name, source, dependsOn, exact }: Made): Schemas {
  const own = readFileSync(import.meta.filename, "utf8");
  const all = [own, dependsOn, JSON.stringify(exact), source].join("\n");
  const key = createHash("sha256").update(all).digest("hex").slice(0, 16);
  const folder = inProject(`.cache/${name}`);
  const kept = join(folder, `${key}.json`);
  try {
    return JSON.parse(readFileSync(kept, "utf8"));
  } catch {
    mkdirSync(folder, { recursive: true });
    const path = join(folder, `${key}.ts`);
    writeFileSync(path, source);
    const options = { path, type: "*", expose: "all", topRef: true, skipTypeCheck: true } as const;
    const made = createGenerator(options).createSchema("*") as Schemas;
    const definitions = { ...made.definitions, ...exact };
    // Whole or not at all: other tests may look for it at the same time.
    writeFileSync(`${kept}.${process.pid}`, JSON.stringify({ definitions }));
    renameSync(`${kept}.${process.pid}`, kept);
    return { definitions };
  }
}

/** Holds values to the schemas; a part that no schema speaks of is a fault where there is one. */
export function judgeBy({ definitions }: Schemas): Judge {
  const ajv = new Ajv({ strict: false });
  ajv.addSchema({ $id: "all", definitions });
  const compiled = new Map<string, ValidateFunction>();
  return (method, part, value) => {
    const name = aliasOf(method, part);
    if (!(name in definitions)) return value === undefined || value === null ? null : `${method} has no ${part}`;
    let judge = compiled.get(name);
    if (!judge) {
      judge = ajv.compile({ $ref: `all#/definitions/${name}` });
      compiled.set(name, judge);
    }
    if (judge(value)) return null;
    return `${part} of ${method}: ${ajv.errorsText(judge.errors, { dataVar: part })} in ${JSON.stringify(value).slice(0, 600)}`;
  };
}

/** The schema that another refers to, or itself. */
export function schemaAt(schema: Schema, { definitions }: Schemas): Schema {
  let at = schema;
  while (at.$ref) at = definitions[decodeURIComponent(at.$ref.replace(/^.*#\/definitions\//, ""))]!;
  return at;
}
