/** What the protocol's own library says of each of its methods: who sends it, and what either side must say it can do. */
import * as protocol from "vscode-languageserver/node";

export interface Method {
  readonly name: string;
  readonly isRequest: boolean;
  readonly from: "client" | "server" | "either";
  /** Where a client says that it can, as a path into its capabilities; empty where nobody has to say so. */
  readonly clientPath: string;
  /** The same of a server. */
  readonly serverPath: string;
}

interface Declared {
  readonly method: string;
  readonly messageDirection: "clientToServer" | "serverToClient" | "both";
  readonly capabilities?: { readonly client?: string; readonly server?: string };
}

const FROM = { clientToServer: "client", serverToClient: "server", both: "either" } as const;

/** What the library says less exactly than the protocol does. */
const MORE_EXACT: Readonly<Record<string, Partial<Method>>> = {
  "textDocument/didOpen": { clientPath: "textDocument.synchronization" },
  "workspace/codeLens/refresh": { clientPath: "workspace.codeLens.refreshSupport" },
  "workspace/textDocumentContent/refresh": { clientPath: "workspace.textDocumentContent" },
  "typeHierarchy/subtypes": { serverPath: "typeHierarchyProvider" },
  "typeHierarchy/supertypes": { serverPath: "typeHierarchyProvider" },
  // It is announced by its registration.
  "workspace/didChangeWorkspaceFolders": { serverPath: "workspace.workspaceFolders.supported" },
};

/** Every method of the protocol, by its name. */
export const METHODS: ReadonlyMap<string, Method> = new Map(
  Object.entries(protocol as unknown as Record<string, Partial<Declared>>).flatMap(([key, declared]) => {
    const { method: name, messageDirection, capabilities } = declared ?? {};
    if (typeof name !== "string" || messageDirection === undefined) return [];
    const method: Method = {
      name,
      isRequest: key.endsWith("Request"),
      from: FROM[messageDirection],
      clientPath: capabilities?.client ?? "",
      serverPath: capabilities?.server ?? "",
      ...MORE_EXACT[name],
    };
    return [[name, method]];
  }),
);

/** What stands at a path such as `workspace.codeLens`; undefined where nothing does. */
export function at(value: unknown, path: string): unknown {
  let found = value;
  for (const name of path.split(".")) found = (found as Record<string, unknown> | null | undefined)?.[name];
  return found;
}

const LIFECYCLE = ["initialize", "shutdown"];
/** Requests of a client that belong to a capability of the server. */
export const CLIENT_REQUESTS: readonly Method[] = [...METHODS.values()].filter(
  ({ from, isRequest, name }) => from === "client" && isRequest && !LIFECYCLE.includes(name),
);

/** The requests that a server announces by what it offers. */
export function announced(offered: unknown): string[] {
  const known = CLIENT_REQUESTS.filter(({ serverPath }) => serverPath !== "" && at(offered, serverPath));
  return known.map(({ name }) => name);
}
