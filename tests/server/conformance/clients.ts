/** Several kinds of client, by what they say they can do. */
import type { ClientCapabilities } from "vscode-languageserver/node";
import { type Schema, schemaAt } from "./kept-schemas.ts";
import { protocolJudge, protocolSchemas } from "./protocol-schemas.ts";

/** What a client may ask for later, by whatever name; the types have it as plain texts. */
const RESOLVED = [
  "documentation",
  "detail",
  "tooltip",
  "label.tooltip",
  "edit",
  "command",
  "location.range",
  "textEdits",
];

/** All that the protocol has: every switch on, every list of choices whole. */
function everyAbility(): ClientCapabilities {
  const schemas = protocolSchemas();
  const whole = (schema: Schema): unknown => {
    if (schema.$ref) return whole(schemaAt(schema, schemas));
    if (schema.anyOf)
      return whole(schema.anyOf.find(({ $ref, type }) => $ref || type === "object") ?? schema.anyOf[0]!);
    if (schema.const !== undefined) return schema.const;
    if (schema.enum) return schema.enum[0];
    if (schema.properties)
      return Object.fromEntries(Object.entries(schema.properties).map(([name, member]) => [name, whole(member)]));
    if (schema.type === "array") return choices((schema.items as Schema | undefined) ?? {});
    if (schema.type === "boolean") return true;
    if (schema.type === "number" || schema.type === "integer") return 100;
    return schema.type === "string" ? "any" : {};
  };
  const choices = (schema: Schema): unknown[] => {
    if (schema.$ref) return choices(schemaAt(schema, schemas));
    if (schema.enum) return [...schema.enum];
    const consts = schema.anyOf?.flatMap((each) => each.enum ?? (each.const === undefined ? [] : [each.const]));
    if (consts && consts.length > 0) return consts;
    return schema.type === "string" && schema.const === undefined ? RESOLVED : [whole(schema)];
  };
  const all = whole(schemas.definitions.ClientCapabilities!) as ClientCapabilities;
  return {
    ...all,
    general: {
      ...all.general,
      positionEncodings: ["utf-8", "utf-16", "utf-32"],
      staleRequestSupport: { cancel: true, retryOnContentModified: ["textDocument/semanticTokens/full"] },
    },
  };
}

const every = everyAbility();
/** Each ability with nothing said of it, but where the protocol has something said. */
function namedAlone(abilities: NonNullable<ClientCapabilities["textDocument"]>): ClientCapabilities["textDocument"] {
  const judge = protocolJudge();
  const isSaid = (name: string) => {
    const capabilities = { textDocument: { [name]: {} } };
    return judge("initialize", "params", { processId: null, rootUri: null, capabilities }) === null;
  };
  return Object.fromEntries(Object.entries(abilities).map(([name, whole]) => [name, isSaid(name) ? {} : whole]));
}

const { diagnostic: _, ...textDocument } = every.textDocument!;
const { diagnostics: __, ...workspace } = every.workspace!;

export type ClientName =
  | "all abilities"
  | "no abilities"
  | "only pushed findings"
  | "nothing but the names of its abilities"
  | "UTF-16 alone";

export const CLIENTS: Readonly<Record<ClientName, ClientCapabilities>> = {
  "all abilities": every,
  "no abilities": {},
  "only pushed findings": { ...every, textDocument, workspace },
  "nothing but the names of its abilities": {
    textDocument: namedAlone(every.textDocument!),
  },
  "UTF-16 alone": { ...every, general: { ...every.general, positionEncodings: ["utf-16"] } },
};
