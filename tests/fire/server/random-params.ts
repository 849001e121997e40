/** What a client sends with a request, at random, made of the schema of its type; what names a document or a place in it is sensible at times. */
import { aliasOf, type Schema, type Schemas, schemaAt } from "../../server/conformance/kept-schemas.ts";
import { OWN_TYPES, ownSchemas } from "../../server/conformance/own-schemas.ts";
import { protocolSchemas } from "../../server/conformance/protocol-schemas.ts";
import type { Random } from "../random.ts";
import { placeIn, rangeIn } from "./edits.ts";
import { HOSTILE, LINES, strayText, TEXTS, WORDS } from "./scene.ts";

/** What a request can be about. */
export interface Subject {
  /** The document of this request. */
  readonly uri: string;
  readonly text: string;
  /** Another address, of any kind. */
  otherUri(): string;
  /** Results of earlier requests. */
  readonly known: readonly unknown[];
}

const own = ownSchemas();
const ofProtocol = protocolSchemas();
/** A type may hold itself; below so many others only what ends is made. */
const DEEPEST = 7;
/** They are given by whoever asks, as each is used once. */
const TOKENS = new Set(["workDoneToken", "partialResultToken"]);

/** Parameters of a request that fit its type. */
export function randomParams(method: string, subject: Subject, random: Random): object {
  const schemas = method in OWN_TYPES ? own : ofProtocol;
  const schema = schemas.definitions[aliasOf(method, "params")];
  return (schema ? (makeMaker(schemas, subject, random)(schema, "", 0) as object | null) : null) ?? {};
}

type Make = (schema: Schema, name: string, depth: number) => unknown;

function makeMaker(schemas: Schemas, subject: Subject, random: Random): Make {
  /** The first address is that of the document, as those that follow are of something else. */
  let isNamed = false;
  const uri = () => {
    const isFirst = !isNamed;
    isNamed = true;
    return isFirst || random.onceIn(4) ? subject.uri : subject.otherUri();
  };
  const special: Readonly<Record<string, () => unknown>> = {
    Position: () => placeIn(subject.text, random),
    Place: () => placeIn(subject.text, random),
    Range: () => rangeIn(subject.text, random),
    PlaceRange: () => rangeIn(subject.text, random),
    DocumentUri: uri,
    URI: uri,
    Uri: uri,
    LSPAny: () => (subject.known.length > 0 ? random.oneOf(subject.known) : null),
  };
  const string = (name: string): string => {
    if (/uri$/i.test(name) || name === "file") return uri();
    if (name === "text" || name === "before" || name === "after")
      return random.onceIn(3) ? strayText(random) : random.onceIn(2) ? random.oneOf([...TEXTS.values()]) : subject.text;
    if (/day$/.test(name)) return random.oneOf(["2026-11-29", "2026-02-30", "1", ""]);
    return random.onceIn(8)
      ? random.oneOf(HOSTILE)
      : random.onceIn(5)
        ? random.oneOf(LINES).trim()
        : random.oneOf(WORDS);
  };
  const integer = (name: string, least: number): number => {
    if (name === "line") return random.onceIn(10) ? 99_999 : random.below(subject.text.split("\n").length);
    return Math.max(least, random.oneOf([0, 0, 1, 1, 2, 3, 5, 16, 53, 1000, 2147483647]));
  };
  const make: Make = (schema, name, depth) => {
    const of = schema.$ref && decodeURIComponent(schema.$ref.replace(/^.*#\/definitions\//, ""));
    if (of && special[of]) return special[of]();
    const at = schemaAt(schema, schemas);
    if (at.const !== undefined) return at.const;
    if (at.enum) return random.oneOf(at.enum);
    if (at.anyOf) {
      const flat = at.anyOf.filter((each) => !schemaAt(each, schemas).properties && !schemaAt(each, schemas).items);
      return make(random.oneOf(depth > DEEPEST && flat.length > 0 ? flat : at.anyOf), name, depth + 1);
    }
    const type = Array.isArray(at.type) ? random.oneOf(at.type) : at.type;
    if (type === "array") {
      if (Array.isArray(at.items)) return at.items.map((each: Schema) => make(each, name, depth + 1));
      const count = Math.max(at.minItems ?? 0, depth > DEEPEST ? 0 : random.below(4));
      return random.some(count, () => make((at.items as Schema | undefined) ?? {}, name, depth + 1));
    }
    if (type === "object" || at.properties) return object(at, depth);
    if (type === "string") return string(name);
    if (type === "integer") return integer(name, (at as { minimum?: number }).minimum ?? 0);
    if (type === "number") return random.onceIn(4) ? random.between(-1000, 1000) / 8 : integer(name, 0);
    if (type === "boolean") return random.onceIn(2);
    if (type === "null") return null;
    return special.LSPAny!();
  };
  const object = ({ properties = {}, required = [], additionalProperties }: Schema, depth: number): object => {
    const made: Record<string, unknown> = {};
    for (const [name, member] of Object.entries(properties)) {
      if (TOKENS.has(name)) continue;
      if (required.includes(name) || (depth <= DEEPEST && random.onceIn(2))) made[name] = make(member, name, depth + 1);
    }
    // Where members are named, the others are further options of the same kinds.
    if (typeof additionalProperties === "object" && Object.keys(properties).length === 0)
      for (let i = random.below(3); i > 0; i--) made[random.oneOf(WORDS)] = make(additionalProperties, "", depth + 1);
    return made;
  };
  return make;
}
