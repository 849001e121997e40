/** Whether every answer of a server equals that of one that never saw anything but the texts as they are. */
import type { TextDocument } from "vscode-languageserver-textdocument";
import { OWN_TYPES } from "../../server/conformance/own-schemas.ts";
import { TABLE } from "../../server/conformance/table.ts";
import type { Random } from "../random.ts";
import type { Client } from "./client.ts";
import type { Editor } from "./editor.ts";
import { beyond, misplaced, type TextOf } from "./held.ts";
import { randomParams, type Subject } from "./random-params.ts";

export interface Question {
  readonly method: string;
  readonly params: object;
}

/** So long what both do in the background may take, on a machine that is busy. */
const SETTLED_MS = 30_000;
const AGAIN_MS = 120;

/** Not asked of both: the one is the request that stays open, the other is of one session. */
const DELTA = "textDocument/semanticTokens/full/delta";
const APART = new Set(["workspace/diagnostic", DELTA]);

/** What is asked of a document once all is quiet: every kind of request, here and there. */
export function questionsOn(document: TextDocument, subject: Subject, random: Random): Question[] {
  const questions: Question[] = [];
  const [uri, text] = [document.uri, document.getText()];
  for (const [method, { asks }] of Object.entries(TABLE)) {
    if (APART.has(method)) continue;
    const all = asks?.({ uri, text }) ?? [];
    const some = all.length <= 2 ? all : random.some(2, () => random.oneOf(all));
    for (const params of some) questions.push({ method, params });
    if (all.length === 0 || random.onceIn(3)) questions.push({ method, params: randomParams(method, subject, random) });
  }
  for (const method of Object.keys(OWN_TYPES))
    questions.push({ method, params: randomParams(method, subject, random) });
  return questions;
}

/** Ids that are by nature of one session: tokens of a document, and how often the fleet was another. */
function comparable({ method }: Question, { result, error }: Awaited<ReturnType<Client["ask"]>>): string {
  const isOfSession = (key: string) =>
    (key === "resultId" && method.startsWith("textDocument/semanticTokens")) ||
    (key === "id" && method === "fettle/fleet");
  const text = JSON.stringify(result ?? { error }, (key, value) => (isOfSession(key) ? undefined : value));
  return text ?? "null";
}

interface Compared {
  readonly count: number;
  readonly faults: readonly string[];
}

/** Asks both, and those again that differ, until both have done what they do in the background. */
export async function compare(
  editor: Editor,
  fresh: Client,
  asked: readonly Question[],
  textOf: TextOf,
): Promise<Compared> {
  const tried = editor.client;
  const faults: string[] = [];
  const until = Date.now() + SETTLED_MS;
  const offered = asked.filter(({ method }) => tried.offers(method));
  const before = new Map<Question, { readonly answer: string; readonly heard: number }>();
  const followed: Question[] = [];
  let count = 0;

  const differing = async (question: Question): Promise<string | null> => {
    count++;
    const { method, params } = question;
    const [ours, theirs] = await Promise.all([tried.ask(method, params), fresh.ask(method, params)]);
    const [a, b] = [comparable(question, ours), comparable(question, theirs)];
    const known = before.get(question);
    // An editor that was given something else before has to be told that it is out of date.
    if (known && known.answer !== a && method === "textDocument/diagnostic" && !isToldSince(tried, known.heard))
      faults.push(`${line(question)}\n  was answered anew, and nobody was told to ask:\n  ${apart(known.answer, a)}`);
    before.set(question, { answer: a, heard: tried.wire.heard.length });
    if (a !== b) return apart(a, b);
    if (!known && ours.result) {
      const uri = (params as { textDocument?: { uri: string } }).textDocument?.uri;
      const document = uri === undefined ? undefined : editor.documents.get(uri);
      if (document)
        for (const { method: next, paramsOf } of TABLE[method]?.leadsTo ?? [])
          if (!APART.has(next))
            for (const each of paramsOf(ours.result, { uri: document.uri, text: document.getText() }))
              followed.push({ method: next, params: each });
      faults.push(...misplaced(method, params, ours.result, textOf));
    }
    return null;
  };
  for (let left = [...offered]; left.length > 0 && faults.length === 0; ) {
    const still = new Map<Question, string>();
    for (const question of left) {
      const difference = await differing(question);
      if (difference !== null) still.set(question, difference);
    }
    const isLate = Date.now() > until;
    if (isLate)
      for (const [question, difference] of still)
        faults.push(`${line(question)}\n  differs from a fresh server's:\n  ${difference}`);
    left = isLate ? [] : [...still.keys(), ...followed.splice(0)];
    if (still.size > 0 && !isLate) await pause(AGAIN_MS);
  }

  for (;;) {
    const [ours, theirs] = [tried, fresh].map((client) => editor.closedFindings(client));
    const uris = [...new Set([...ours!.keys(), ...theirs!.keys()])];
    const other = uris.find((uri) => JSON.stringify(ours!.get(uri)) !== JSON.stringify(theirs!.get(uri)));
    if (other === undefined) {
      count += uris.length;
      for (const uri of uris)
        for (const finding of ours!.get(uri) ?? []) {
          const fault = beyond(finding, uri, textOf);
          if (fault) faults.push(fault);
        }
      break;
    }
    if (Date.now() > until + 2000) {
      const [a, b] = [ours, theirs].map((all) => JSON.stringify(all!.get(other)) ?? "nothing");
      faults.push(`What is told of ${other} unasked differs from a fresh server's:\n  ${apart(a!, b!)}`);
      break;
    }
    await pause(AGAIN_MS);
  }
  return { count, faults };
}

/** Tokens as a client had them of an earlier text. */
export interface TokensBefore {
  readonly resultId: string;
  readonly data: readonly number[];
}

/** Whether what a server says to have changed in tokens makes of those before what a fresh server gives. */
export async function tokensFault(
  tried: Client,
  fresh: Client,
  uri: string,
  { resultId, data }: TokensBefore,
): Promise<string | null> {
  const textDocument = { uri };
  const { result: changed } = await tried.ask(DELTA, { textDocument, previousResultId: resultId });
  const { result: whole } = await fresh.ask("textDocument/semanticTokens/full", { textDocument });
  const now = [...data];
  // Each is of the tokens as they were before: the last first.
  for (const { start, deleteCount, data: put = [] } of (changed?.edits ?? []).toReversed())
    now.splice(start, deleteCount, ...put);
  const [a, b] = [JSON.stringify(changed?.data ?? now), JSON.stringify(whole?.data)];
  return a === b ? null : `${DELTA} of ${uri} makes other tokens than a fresh server has:\n  ${apart(a, b)}`;
}

const pause = (delayMs: number) => new Promise((resolve) => setTimeout(resolve, delayMs));

function isToldSince({ wire }: Client, heard: number): boolean {
  return wire.heard.slice(heard).some(({ method }) => method === "workspace/diagnostic/refresh");
}

function line({ method, params }: Question): string {
  return `${method} ${JSON.stringify(params).slice(0, 1500)}`;
}

/** Two texts from where they part, with a little of what is before. */
function apart(a: string, b: string): string {
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  const from = Math.max(0, at - 120);
  return `${a.slice(from, at + 300)}\n  ${b.slice(from, at + 300)}`;
}
