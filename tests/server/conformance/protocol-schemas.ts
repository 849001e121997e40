/**
 * JSON Schemas of every message of the protocol, made from the declarations of the protocol's own library, so that
 * nobody has written them by hand. An object has no members besides those of its type.
 */
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { aliasOf, type Judge, judgeBy, keptSchemas, type Part, type Schemas } from "./kept-schemas.ts";

/** What a notification of progress on work has as its value. */
export const PROGRESS = "$/progress";

const library = createRequire(import.meta.url).resolve("vscode-languageserver-protocol");
const declarations = join(dirname(library).replace(/lib.*$/, ""), "lib/common");

/** Whatever the library gives to all; some names it keeps in the file of their feature. */
const EVERYTHING = "api.d.ts";
const files = readdirSync(declarations).filter((name) => name.endsWith(".d.ts"));
const namespaceOf = (file: string) => `In${files.indexOf(file)}`;

/** The declared types of one method, as the library spells them. */
interface Declared {
  readonly method: string;
  readonly types: Readonly<Partial<Record<Part, string>>>;
}

/** Every request and notification that the library declares. */
function declared(): Declared[] {
  const found: Declared[] = [];
  for (const file of files) {
    const text = readFileSync(join(declarations, file), "utf8");
    const own = new Set([...text.matchAll(/^export (?:type|interface) (\w+)/gm)].map(([, name]) => name!));
    const place = (word: string) => `${namespaceOf(own.has(word) ? file : EVERYTHING)}.${word}`;
    for (const [, body = ""] of text.matchAll(/export declare namespace \w+ \{([\s\S]*?)\n\}/g)) {
      const method = /const method: ['"]([^'"]+)['"]/.exec(body)?.[1];
      const type = /const type: Protocol(Request|Notification)Type(0?)<(.*)>;/.exec(body);
      if (method === undefined || !type) continue;
      const given = argumentsOf(type[3]!);
      const parts: readonly Part[] =
        type[1] === "Request" ? ["params", "result", "partial", "error", "registration"] : ["params", "registration"];
      const names = type[2] === "0" ? parts.filter((part) => part !== "params") : parts;
      const types = Object.fromEntries(
        names.flatMap((part, i) => (/^(void|never)$/.test(given[i]!) ? [] : [[part, qualified(given[i]!, place)]])),
      );
      found.push({ method, types });
    }
  }
  return found;
}

/** The type arguments in a text such as `A, B | null, C<D, E>`. */
function argumentsOf(text: string): string[] {
  const given: string[] = [];
  let depth = 0;
  let begin = 0;
  for (let i = 0; i <= text.length; i++) {
    if (i === text.length || (text[i] === "," && depth === 0)) {
      given.push(text.slice(begin, i).trim());
      begin = i + 1;
    } else if ("<{[(".includes(text[i]!)) depth++;
    else if (">}])".includes(text[i]!)) depth--;
  }
  return given;
}

/** One alias for each part of each method, in TypeScript. */
function aliases(): string {
  const lines = declared().flatMap(({ method, types }) =>
    Object.entries(types).map(([part, type]) => `export type ${aliasOf(method, part as Part)} = ${type};`),
  );
  const imports = files.map((file) => {
    const path = JSON.stringify(join(declarations, file.replace(/\.d\.ts$/, "")));
    return `import type * as ${namespaceOf(file)} from ${path};`;
  });
  // The library gives one token to all kinds of progress: what is told of work has a type, and no method of its own.
  const progress = ["Begin", "Report", "End"].map((kind) => `${namespaceOf(EVERYTHING)}.WorkDoneProgress${kind}`);
  lines.push(`export type ${aliasOf(PROGRESS, "params")} = ${progress.join(" | ")};`);
  return [...imports, ...lines, ""].join("\n");
}

const OWN_WORDS = new Set(["null", "any", "void", "string", "number", "boolean", "undefined"]);

/** A type with each of its names as it is imported. */
function qualified(type: string, placeOf: (word: string) => string): string {
  return type.replaceAll(/(['"])(?:(?!\1).)*\1|\b[A-Za-z]\w*\b(?!\??:)/g, (word) =>
    /^['"]/.test(word) || OWN_WORDS.has(word) ? word : placeOf(word),
  );
}

/** Number types of the protocol, which TypeScript knows as plain numbers. */
const NUMBERS = {
  uinteger: { type: "integer", minimum: 0, maximum: 2147483647 },
  integer: { type: "integer", minimum: -2147483648, maximum: 2147483647 },
  decimal: { type: "number" },
  DocumentUri: { type: "string", pattern: "^[a-z][a-z0-9+.-]*:" },
  URI: { type: "string", pattern: "^[a-z][a-z0-9+.-]*:" },
};

/** Made once for a version of the library. */
export function protocolSchemas(): Schemas {
  const { version } = JSON.parse(readFileSync(join(declarations, "../../package.json"), "utf8"));
  return keptSchemas({ folder: "protocol-schemas", source: aliases(), dependsOn: version, exact: NUMBERS });
}

/** Holds values to the schemas; a method that the protocol does not have is a fault as well. */
export function protocolJudge(): Judge {
  return judgeBy(protocolSchemas());
}
