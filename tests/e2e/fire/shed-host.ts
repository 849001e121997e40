/**
 * The hosts of the pages as the extension has them, over an editor in memory and a language server in the same process:
 * gestures of a page become edits of documents, and documents become models.
 */
import type { TextDocument } from "vscode";
import { URI } from "vscode-uri";
import { inProject } from "../../../.dev/say.mjs";
import type { Ask } from "../../../client/src/ask.ts";
import { askHabit } from "../../../client/src/change-habit.ts";
import { comparisonTabs } from "../../../client/src/comparison-tab.ts";
import { fleetChangeTabs } from "../../../client/src/fleet-change-tab.ts";
import { fleetTab, WHOLE_FLEET } from "../../../client/src/fleet-tab.ts";
import { askMapControls, askOtherHandset } from "../../../client/src/map-controls.ts";
import { panelHost } from "../../../client/src/panel-host.ts";
import { reviewTabs } from "../../../client/src/review-tab.ts";
import { selectLine } from "../../../client/src/script-editors.ts";
import type { ServerFiles } from "../../../server/src/lsp/documents.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { PANEL_REQUEST, type PanelModel, type ViewName } from "../../../shared/protocol/panel.ts";
import { CHANGED_NOTIFICATION } from "../../../shared/protocol/requests.ts";
import { PULLING, type Session, startSession } from "../../server/session.ts";
import type { Event, MemoryDocument } from "./memory-documents.ts";
import { memory, window } from "./memory-editor.ts";

export interface Shed {
  readonly tabs: Readonly<
    Record<"fleet" | "comparison" | "review" | "fleet-change", (mine: string, other: string) => void>
  >;
  /** What the hosts wrote to their log: nothing, where all went well. */
  readonly log: string[];
  /** Whether the server, an answer of it, or a page that is given the keyboard back is waited for. */
  isBusy(): boolean;
  /** The model of the panel as the server has it now, for what the host asked last. */
  modelNow(): Promise<PanelModel | null>;
  /** Shows a script in front. */
  show(address: string): Promise<MemoryDocument>;
  /** Shows a view of the panel, by its command. */
  showView(view: ViewName): Promise<void>;
  /** The server does not answer, and then is there again as after its restart. */
  away(meanwhile: () => Promise<void>): Promise<void>;
  /** A file is written, or goes where the text is null, behind the editor's back. */
  change(address: string, text: string | null): Promise<void>;
  end(): void;
}

const AWAY = "the server is away";

const pathOf = (address: string) => URI.parse(address).path;

/** Files by their addresses; `lateMs` says how late each answer of the server is. */
export async function startShed(files: ReadonlyMap<string, string>, lateMs: () => number): Promise<Shed> {
  let waiting = 0;
  const log: string[] = [];
  let changed = () => {};
  const session: Session = await startSession(filesOfMemory(), PULLING, { draws: true }, undefined, (client) => {
    client.onNotification(CHANGED_NOTIFICATION, () => changed());
    client.onRequest("workspace/configuration", () => [null]);
    client.onRequest("client/registerCapability", () => null);
  });
  const { client } = session;
  memory.reset(files, (event) => {
    tellServer(session, event);
    if (event.kind === "changed") changed();
  });
  let lastAsked: unknown;
  let isAway = false;
  const ask: Ask = async (method, params) => {
    if (isAway) throw new Error(AWAY);
    waiting++;
    if (method === PANEL_REQUEST) lastAsked = params;
    try {
      const answer = await client.sendRequest(method, JSON.parse(JSON.stringify(params)));
      const late = lateMs();
      if (late > 0) await new Promise((resolve) => setTimeout(resolve, late));
      return answer as never;
    } finally {
      waiting--;
    }
  };
  const extension = URI.file(inProject(""));
  const crafts = () =>
    [...memory.files.keys()]
      .filter((each) => each.includes("/craft/"))
      .map((file) => ({ file, name: file, aside: "" }));
  const warn = (message: string) => {
    if (!message.includes(AWAY)) log.push(message);
  };
  const panel = panelHost(
    extension as never,
    ask,
    warn,
    async () => crafts(),
    async ({ revision }) => revision,
  );
  const parts = { extension: extension as never, ask, log: warn, openPlace: selectLine };
  const comparisons = comparisonTabs(parts, async () => undefined);
  const reviews = reviewTabs(parts);
  const fleet = fleetTab(parts);
  const changes = fleetChangeTabs(parts);
  changed = () => {
    for (const each of [comparisons, reviews, fleet, changes]) each.changed();
    panel.refresh();
  };
  memory.handlers.set("fettle.beginOsd", (page: never) => panel.beginOsd(page));
  memory.handlers.set("fettle.changeHabit", () => askHabit(ask, changes.open));
  memory.handlers.set("fettle.mapControls", (file: string) => askMapControls(ask, file));
  memory.handlers.set("fettle.useHandset", (file: string) => askOtherHandset(ask, file));
  memory.handlers.set("fettle.restartServer", () => changed());
  memory.handlers.set("fettle.overlay", (shown: never) => panel.showAgainst(shown));
  return {
    tabs: {
      fleet: () => fleet.open(WHOLE_FLEET),
      comparison: (mine, other) => comparisons.open(URI.parse(mine) as never, { kind: "file", uri: other as never }),
      review: (mine, other) =>
        reviews.open({ mine: mine as never, offer: { kind: "file", uri: other as never }, purpose: "carry" }),
      "fleet-change": (mine) =>
        changes.open({ kind: "alike", example: mine as never, kinds: ["habits", "osd", "rates"], layers: [] }),
    },
    log,
    isBusy: () => waiting > 0 || performance.now() < memory.keyboardUntilMs,
    modelNow: () => client.sendRequest(PANEL_REQUEST, JSON.parse(JSON.stringify(lastAsked))),
    async show(address) {
      const document = memory.documents.open(address);
      await window.showTextDocument(document, { viewColumn: 1 });
      return document;
    },
    showView: (view) => panel.show(view),
    async away(meanwhile) {
      isAway = true;
      try {
        await meanwhile();
      } finally {
        isAway = false;
        changed();
      }
    },
    async change(address, text) {
      const type = text === null ? 3 : memory.files.has(address) ? 2 : 1;
      if (text === null) memory.files.delete(address);
      else memory.files.set(address, text);
      await client.sendNotification("workspace/didChangeWatchedFiles", { changes: [{ uri: address, type }] });
    },
    end() {
      for (const each of [
        ...panel.disposables,
        ...[comparisons, reviews, fleet, changes].flatMap((tab) => tab.disposables),
      ])
        each.dispose();
      session.end();
    },
  };
}

function filesOfMemory(): ServerFiles {
  const texts = () => Object.fromEntries([...memory.files].map(([address, text]) => [pathOf(address), text]));
  return {
    read: async (path) => ({ answer: memoryFiles(texts()).read(path)!, realPath: path }),
    list: async () => ({ paths: Object.keys(texts()), cut: false }),
  };
}

/** As the client of an editor does: every document of the language, with every change of it. */
function tellServer({ client }: Session, event: Event): void {
  const { document } = event;
  const uri = document.uri.toString();
  const { version } = document as unknown as TextDocument;
  if (event.kind === "opened") {
    const opened = { uri, languageId: "fettle", version, text: document.getText() };
    void client.sendNotification("textDocument/didOpen", { textDocument: opened });
  } else if (event.kind === "closed") void client.sendNotification("textDocument/didClose", { textDocument: { uri } });
  else
    void client.sendNotification("textDocument/didChange", {
      textDocument: { uri, version },
      contentChanges: event.changes,
    });
}
