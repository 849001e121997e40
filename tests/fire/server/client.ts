/** A client of the shipped server, which is a process of its own that may be killed; every message is held to the schemas. */
import { spawn } from "node:child_process";
import { basename, join } from "node:path";
import { build } from "esbuild";
import type { ClientCapabilities } from "vscode-languageserver/node";
import { bundles } from "../../../.dev/bundles.mjs";
import { temporaryFolder } from "../../cli/program.ts";
import { CLIENTS } from "../../server/conformance/clients.ts";
import { at, METHODS } from "../../server/conformance/methods.ts";
import { OWN_TYPES, ownJudge } from "../../server/conformance/own-schemas.ts";
import { openWire, type Told, type Wire } from "../../server/conformance/wire.ts";

/** Builds the server as it is shipped, of two bundles, into a folder that goes with the test file; gives its path. */
export async function buildServer(): Promise<string> {
  const folder = temporaryFolder();
  const servers = bundles.filter(({ outfile }) => outfile?.startsWith("dist/server/"));
  const files = servers.map(({ outfile }) => join(folder, basename(outfile!)));
  await Promise.all(servers.map((bundle, i) => build({ ...bundle, outfile: files[i]! })));
  return files.find((file) => file.endsWith("node.cjs"))!;
}

export interface Folder {
  readonly uri: string;
  readonly name: string;
}

/** What a server is started with, and what it is told when it asks. */
export interface Host {
  folders(): readonly Folder[];
  /** The section “fettle” of the settings. */
  settings(): object;
  readonly abilities?: ClientCapabilities;
  readonly options?: object;
  /** What else it answers, by method. */
  readonly answers?: Readonly<Record<string, (params: never) => unknown>>;
}

export interface Client {
  readonly wire: Wire;
  readonly pid: number;
  /** The answer; an error of the client's own where there is none in time, or where the server is gone. */
  ask(method: string, params: object, onSent?: (id: number) => void): Promise<Told>;
  /** Whether a client may ask this now: it is announced, or it is a request of our own. */
  offers(method: string): boolean;
  /** What was wrong so far, in words: messages, lines of the log, and an end that nobody asked for. */
  faults(): readonly string[];
  /** Ends it at once, as a system does that has no memory left. */
  kill(): Promise<void>;
  /** Ends it as an editor does. */
  end(): Promise<void>;
}

/** On a machine that is busy with other work a request takes its time; one that takes more is held to be lost. */
const LOST_MS = 120_000;
const GONE: Told = { error: { code: 0, message: "The server was killed." } };
/** Errors that a server may answer with: cancelled, modified, cancelled by the server, refused in words. */
const USUAL_ERRORS: readonly number[] = [-32800, -32801, -32802, -32803, GONE.error!.code];

const judgeOwn = ownJudge();

/** Every request of the protocol that a client sends of its own accord. */
const REQUESTS = [...METHODS.values()].filter(
  ({ from, isRequest, serverPath }) => from === "client" && isRequest && serverPath,
);

/** Every request that a server offers, of the protocol and of our own. */
export function offeredBy(client: Client): string[] {
  return [...REQUESTS.map(({ name }) => name), ...Object.keys(OWN_TYPES)].filter(client.offers);
}

/** Starts a server, and waits until it has said what it can do. */
export async function startClient(program: string, host: Host): Promise<Client> {
  const env = { ...process.env, GIT_CONFIG_GLOBAL: "/dev/null", GIT_CONFIG_NOSYSTEM: "1" };
  const child = spawn(process.execPath, [program, "--stdio"], { stdio: ["pipe", "pipe", "pipe"], env });
  // A server that was killed takes nothing more.
  child.stdin.on("error", () => {});
  const faults: string[] = [];
  child.stderr.setEncoding("utf8").on("data", (text: string) => faults.push(`On standard error: ${text}`));
  let isEnding = false;
  const gone = new Promise<void>((resolve) => {
    child.once("exit", (code, signal) => {
      if (!isEnding) faults.push(`The server ended by itself: ${code ?? signal}`);
      resolve();
    });
  });
  const abilities = host.abilities ?? CLIENTS["all abilities"];
  const wire = openWire({ toServer: child.stdin, fromServer: child.stdout }, abilities, {
    "workspace/configuration": ({ items }: { items: unknown[] }) => items.map(() => host.settings()),
    "workspace/workspaceFolders": () => [...host.folders()],
    ...host.answers,
  });
  const ask: Client["ask"] = async (method, params, onSent) => {
    const asked = JSON.stringify(params);
    if (method in OWN_TYPES) {
      const fault = judgeOwn(method, "params", params);
      if (fault) faults.push(`Asked beyond its type: ${fault}`);
    }
    let late: NodeJS.Timeout | undefined;
    const lost = new Promise<Told>((resolve) => {
      late = setTimeout(() => {
        faults.push(`No answer in ${LOST_MS / 1000} s: ${method} ${asked}`);
        resolve({ error: { code: 0, message: "No answer." } });
      }, LOST_MS);
    });
    const told = await Promise.race([wire.request(method, params, onSent), gone.then(() => GONE), lost]);
    clearTimeout(late);
    const { error } = told;
    if (error && !USUAL_ERRORS.includes(error.code))
      faults.push(`${method} ${asked}: error ${error.code}, ${error.message}`);
    return told;
  };
  const [folder] = host.folders();
  await ask("initialize", {
    processId: process.pid,
    rootUri: folder?.uri ?? null,
    capabilities: abilities,
    workspaceFolders: [...host.folders()],
    initializationOptions: { settings: host.settings(), ...host.options },
  });
  wire.notify("initialized", {});
  return {
    wire,
    pid: child.pid!,
    ask,
    offers(method) {
      const path = METHODS.get(method)?.serverPath;
      return path === undefined ? method in OWN_TYPES : Boolean(at(wire.offered, path));
    },
    faults: () => [...faults, ...wire.faults, ...wire.errors.map((line) => `In the log: ${line}`)],
    async kill() {
      isEnding = true;
      child.kill("SIGKILL");
      await gone;
      wire.end();
    },
    async end() {
      isEnding = true;
      await Promise.race([wire.request("shutdown"), gone]);
      wire.notify("exit");
      await gone;
      wire.end();
    },
  };
}
