/** Every feature of the server, asked in turn: each method once in a round, of another document and place each time. */
import { type Question, questionsOf } from "../../server/conformance/questions.ts";
import { type Document, TABLE } from "../../server/conformance/table.ts";
import type { Random } from "../random.ts";

export type Asked = Pick<Question, "method" | "params">;

/** What `questionsOf` leaves out: what makes files, reads another revision, or changes a picture. */
function furtherQuestions(root: string): Asked[] {
  const uri = `${root}/shelf-0/craft-0.fettle`;
  const osd = { uri, page: "osd", where: "override" };
  const revision = { kind: "revision", uri, revision: "HEAD" };
  return [
    { method: "fettle/history", params: { uri, position: { line: 10, character: 4 } } },
    { method: "fettle/compare", params: { uri, other: revision } },
    { method: "fettle/panel", params: { uri, view: "switches", against: revision } },
    { method: "fettle/take", params: { uri, other: revision, whats: ["pack.cells", "modes.finder"] } },
    { method: "fettle/newCraft", params: { folder: root, answers: {} } },
    { method: "fettle/newHandset", params: { folder: root, answers: { name: "Treadle" } } },
    { method: "fettle/boardNames", params: { uri: `${root}/cards.txt`, typed: "warn", craft: uri } },
    { method: "fettle/boardOf", params: { uri } },
    { method: "fettle/boardWrite", params: { craft: uri, dialect: `${root}/loom.fettle`, base: null } },
    { method: "fettle/osdEdit", params: { ...osd, gesture: { kind: "move", element: "amps", column: 9, row: 4 } } },
    { method: "fettle/osdEdit", params: { ...osd, gesture: { kind: "fit", columns: 30, rows: 13 } } },
    { method: "fettle/page", params: { name: "pack" } },
    { method: "fettle/insert", params: { uri, insert: { kind: "fill-in", what: "rates" } } },
  ];
}

/** An editor has it open all the time, and a second one would end it. */
export const STAYS_OPEN = "workspace/diagnostic";

const HIERARCHY = "textDocument/prepareCallHierarchy";

/** The places of modes and outputs in a document: only there something hangs on something. */
function modesIn({ uri, text }: Document): Asked[] {
  return text.split("\n").flatMap((line, number) => {
    const found = /^ +(?=[a-z-]+ +when )/.exec(line);
    if (!found) return [];
    const position = { line: number, character: found[0].length + 1 };
    return [{ method: HIERARCHY, params: { textDocument: { uri }, position } }];
  });
}

export interface Asker {
  /** What is to be asked next, as the documents are now: of several places where its results lead further. */
  next(documents: readonly Document[], random: Random): Asked[];
  /** What an answer leads to, such as the details of an item. */
  following(asked: Asked, result: unknown, document: Document): Asked[];
  /** The methods of a round, those that only an answer leads to included. */
  readonly methods: readonly string[];
}

/** Asks of a workspace at this address that holds `fleetTexts`, all but `STAYS_OPEN`. */
export function makeAsker(root: string): Asker {
  const questions = [...questionsOf(root), ...furtherQuestions(root)];
  const asked = Object.keys(TABLE).filter((method) => TABLE[method]!.asks);
  const inTurn = [...new Set([...asked, ...questions.map(({ method }) => method)])].filter(
    (each) => each !== STAYS_OPEN,
  );
  const led = Object.values(TABLE).flatMap(({ leadsTo }) => (leadsTo ?? []).map(({ method }) => method));
  let turn = 0;
  return {
    methods: [...new Set([...inTurn, ...led])],
    next(documents, random) {
      const method = inTurn[turn++ % inTurn.length]!;
      const ofDocument = TABLE[method]?.asks?.(random.oneOf(documents)) ?? [];
      const ready = questions.filter((question) => question.method === method);
      const modes = method === HIERARCHY ? documents.flatMap(modesIn) : [];
      const all = [...(modes.length > 0 ? modes : ofDocument.map((params) => ({ method, params }))), ...ready];
      return random.some(TABLE[method]?.leadsTo ? 6 : 1, () => random.oneOf(all));
    },
    following: ({ method }, result, document) =>
      (TABLE[method]?.leadsTo ?? []).flatMap((next) =>
        next.paramsOf(result, document).map((params) => ({ method: next.method, params })),
      ),
  };
}

/** The document that a question is about; the first of them where it is about none. */
export function documentOf({ params }: Asked, documents: readonly Document[]): Document {
  const { textDocument, uri } = params as { textDocument?: { uri: string }; uri?: string };
  const asked = textDocument?.uri ?? uri;
  return documents.find((each) => each.uri === asked) ?? documents[0]!;
}
