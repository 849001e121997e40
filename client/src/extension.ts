/** The part of the extension that is the same on every host: everything except how the language server is started. */
import { commands, type ExtensionContext, type LogOutputChannel, type Uri, window, workspace } from "vscode";
import {
  type BaseLanguageClient,
  DidChangeTextDocumentNotification,
  type LanguageClientOptions,
} from "vscode-languageclient";
import { ACCEPT_COMMAND, type AcceptArgument } from "../../shared/protocol/accept.ts";
import { BENCH_COMMAND } from "../../shared/protocol/bench-file.ts";
import { BOARD_COMMANDS } from "../../shared/protocol/board.ts";
import { REVISION_REQUEST, type RevisionParams, type RevisionResult } from "../../shared/protocol/compare.ts";
import { LOG_REQUEST, type LogParams, type LogResult } from "../../shared/protocol/history.ts";
import { type FollowLens, LENS_COMMAND } from "../../shared/protocol/lenses.ts";
import { type ChangeOrigin, ORIGIN_COMMAND } from "../../shared/protocol/origin.ts";
import type { OsdPage } from "../../shared/protocol/osd.ts";
import { LINE_COMMAND, PAGE_COMMAND } from "../../shared/protocol/pages.ts";
import { type LinePlace, POSITIONS_COMMAND, type ShowPositions } from "../../shared/protocol/panel.ts";
import {
  CHANGED_NOTIFICATION,
  COMMITTED_NOTIFICATION,
  LIST_REQUEST,
  type ListResult,
  READ_REQUEST,
  type ReadResult,
} from "../../shared/protocol/requests.ts";
import { SETTINGS_SECTION } from "../../shared/protocol/settings.ts";
import { acceptFinding } from "./accept-finding.ts";
import type { Ask } from "./ask.ts";
import { asking } from "./ask-steps.ts";
import { boardCommands } from "./board-commands.ts";
import { boardLooks } from "./board-looks.ts";
import { boardTexts } from "./board-texts.ts";
import { boardWriteCommands } from "./board-write.ts";
import { askHabit, type HabitOfLine } from "./change-habit.ts";
import { compareCommands } from "./compare-with.ts";
import { comparisonTabs } from "./comparison-tab.ts";
import { effectiveCrafts, leaveOutShown } from "./effective.ts";
import { listForServer, readForServer } from "./file-requests.ts";
import { fleetChangeTabs } from "./fleet-change-tab.ts";
import { fleetTab, WHOLE_FLEET } from "./fleet-tab.ts";
import { habitActions } from "./habit-actions.ts";
import { showHistory } from "./history.ts";
import { kindBadges } from "./kind-badges.ts";
import { lensCommands } from "./lens-commands.ts";
import { askMakeAlike } from "./make-alike.ts";
import { askMapControls, askOtherHandset } from "./map-controls.ts";
import { askNewCraft } from "./new-craft.ts";
import { askNewHandset } from "./new-handset.ts";
import { openAtStart } from "./open-at-start.ts";
import { originCommands } from "./origin.ts";
import { otherDocuments } from "./other-documents.ts";
import { overlayCommand } from "./overlay.ts";
import { pageLinkForm } from "./page-links.ts";
import { pagesOf } from "./pages.ts";
import { panelHost } from "./panel-host.ts";
import { craftForPanel } from "./pick-craft.ts";
import { practice } from "./practice.ts";
import { CLASHING, FRIENDS_TEXT } from "./practice-script.ts";
import { putBack } from "./put-back.ts";
import { reviewCommands } from "./review-commands.ts";
import { reviewTabs } from "./review-tab.ts";
import { revisionsOf } from "./revisions.ts";
import { namedIn, saveBench } from "./save-bench.ts";
import { followContext } from "./script-context.ts";
import { selectLine } from "./script-editors.ts";
import { share } from "./share.ts";
import { statusItem } from "./status-item.ts";
import { treeCommands } from "./tree-commands.ts";
import { followUseLines, type UseLines } from "./use-lines.ts";
import { workspaceScripts } from "./workspace-scripts.ts";
import { workspaceTree } from "./workspace-tree.ts";

/** Creates a client and its connection to the server, without starting it. */
export type MakeClient = (context: ExtensionContext, options: LanguageClientOptions) => BaseLanguageClient;

/** Sets everything up, then starts the language server; rejects where that cannot be started. */
export async function activateWith(context: ExtensionContext, makeClient: MakeClient): Promise<BaseLanguageClient> {
  const output = window.createOutputChannel("Fettle", { log: true });
  const client = makeClient(
    context,
    clientOptions(
      output,
      () => {
        panel.refresh();
        changed();
      },
      followUseLines(
        (method, params) => ask(method, params),
        (message) => output.warn(message),
      ),
    ),
  );
  client.onRequest<ReadResult, void>(READ_REQUEST, readForServer);
  client.onRequest<ListResult, void>(LIST_REQUEST, listForServer);
  let started = client.start();
  const warn = (message: string) => output.warn(message);
  const askServer: Ask = async (method, params, token) => {
    await started;
    // A token that is not there would count as one more parameter.
    return token ? client.sendRequest(method, params, token) : client.sendRequest(method, params);
  };
  const revisions = revisionsOf();
  client.onRequest<RevisionResult, void>(REVISION_REQUEST, (params: RevisionParams) => revisions.text(params));
  client.onRequest<LogResult, void>(LOG_REQUEST, (params: LogParams) => revisions.log(params));
  const others = otherDocuments(askServer, revisions);
  const { ask } = others;
  const practising = practice();
  const scripts = workspaceScripts(ask, warn);
  const panel = panelHost(context.extensionUri, ask, warn, () => craftForPanel(scripts), revisions.titleOf);
  const pages = pagesOf(context.extensionUri, ask);
  scripts.countWhile(panel.lists);
  const status = statusItem(ask, panel.drawnCraft, warn);
  const effective = effectiveCrafts(ask);
  const lenses = lensCommands({ panel, effective, scripts });
  const parts = { extension: context.extensionUri, ask, log: warn, openPlace: others.openPlace };
  const comparisons = comparisonTabs(parts, others.showNativeDiff);
  const compare = compareCommands({ scripts, revisions, open: comparisons.open });
  const origins = originCommands({ ask, effective, drawnCraft: panel.drawnCraft });
  const reviews = reviewTabs(parts);
  const review = reviewCommands({ scripts, open: reviews.open });
  const fleet = fleetTab(parts);
  const fleetChanges = fleetChangeTabs(parts);
  const looks = boardLooks(context.extensionUri);
  const boards = boardTexts(ask, looks, () => context.workspaceState);
  const board = boardCommands({ ask, texts: boards, looks, scripts, review: reviews.open });
  const forBoard = boardWriteCommands({ ask, scripts, drawnCraft: panel.drawnCraft });
  const changed = () => {
    for (const each of [scripts, status, effective, comparisons, reviews, fleet, fleetChanges, boards]) each.changed();
  };
  client.onNotification(CHANGED_NOTIFICATION, () => {
    panel.refresh();
    pages.refresh();
    changed();
  });
  context.subscriptions.push(
    output,
    ...panel.disposables,
    ...practising.disposables,
    ...pages.disposables,
    ...scripts.disposables,
    scripts.onDidChange(() => {
      if (panel.lists()) panel.refresh();
    }),
    ...workspaceTree(scripts),
    ...kindBadges(scripts),
    ...status.disposables,
    ...effective.disposables,
    ...revisions.disposables,
    ...others.disposables,
    ...comparisons.disposables,
    ...reviews.disposables,
    ...fleet.disposables,
    ...fleetChanges.disposables,
    habitActions(),
    ...looks.disposables,
    ...boards.disposables,
    revisions.onDidChange(() => comparisons.changed()),
    ...followContext(),
    ...treeCommands(scripts, panel, lenses, { ...compare, ...review }),
    commands.registerCommand("fettle.showPanel", () => panel.focus()),
    commands.registerCommand("fettle.showGoggles", () => panel.show("goggles")),
    commands.registerCommand("fettle.showSwitches", () => panel.show("switches")),
    commands.registerCommand("fettle.showNumbers", () => panel.show("numbers")),
    commands.registerCommand("fettle.showFleet", () => fleet.open(WHOLE_FLEET)),
    commands.registerCommand(BENCH_COMMAND, (of?: unknown) => panel.show("bench", namedIn(of))),
    commands.registerCommand("fettle.saveBench", (of?: unknown) => saveBench({ ask, scripts, panel }, of)),
    commands.registerCommand("fettle.putBack", (of?: unknown) => putBack({ ask, scripts, panel }, of)),
    commands.registerCommand("fettle.makeAlike", (of?: unknown) => askMakeAlike(ask, scripts, fleetChanges.open, of)),
    commands.registerCommand("fettle.changeHabit", (line?: HabitOfLine) => askHabit(ask, fleetChanges.open, line)),
    commands.registerCommand("fettle.showUsers", (uri?: Uri) => lenses.showUsers(uri)),
    commands.registerCommand("fettle.showEffective", (of?: Uri) => lenses.showEffective(of)),
    commands.registerCommand("fettle.share", (of?: unknown) => share(ask, scripts, panel.drawnCraft, of)),
    commands.registerCommand("fettle.compareWith", (of?: unknown) => compare.compareWith(of)),
    commands.registerCommand("fettle.compareWithHead", (of?: unknown) => compare.compareWithHead(of)),
    // Called from lenses only, which say what is meant.
    commands.registerCommand(LENS_COMMAND, (lens: FollowLens) => lenses.follow(lens)),
    commands.registerCommand("fettle.showPanelBeside", () => panel.openBeside()),
    commands.registerCommand(PAGE_COMMAND, (name?: unknown) => pages.show(name)),
    commands.registerCommand("fettle.newCraft", (from?: unknown) => asking(from, () => askNewCraft(ask))),
    commands.registerCommand("fettle.newHandset", (from?: unknown) =>
      asking(from, () => askNewHandset(ask, (handset) => askNewCraft(ask, handset))),
    ),
    commands.registerCommand("fettle.mapControls", (file?: string) => askMapControls(ask, file)),
    commands.registerCommand("fettle.useHandset", (file?: string) => askOtherHandset(ask, file)),
    commands.registerCommand("fettle.fitOsd", () => panel.fitOsd()),
    commands.registerCommand("fettle.addOsdElement", () => panel.addElement()),
    commands.registerCommand("fettle.beginOsd", (page?: OsdPage) => panel.beginOsd(page)),
    commands.registerCommand("fettle.reviewClipboard", () => review.clipboard()),
    commands.registerCommand("fettle.reviewFile", (uri?: Uri) => review.file(uri)),
    commands.registerCommand("fettle.reviewSelection", () => review.selection()),
    commands.registerCommand("fettle.review", (offered?: unknown) => review.review(offered)),
    commands.registerCommand("fettle.carryOver", (from?: Uri) => review.carryOver(from)),
    commands.registerCommand(BOARD_COMMANDS.chooseDialect, (from?: unknown) => board.chooseDialect(from)),
    commands.registerCommand(BOARD_COMMANDS.nameLine, (from?: unknown) => board.nameLine(from)),
    commands.registerCommand(BOARD_COMMANDS.read, (from?: unknown) => board.read(from)),
    commands.registerCommand(BOARD_COMMANDS.review, (from?: unknown) => board.review(from)),
    commands.registerCommand(BOARD_COMMANDS.moved, (from?: unknown) => board.moved(from)),
    commands.registerCommand(BOARD_COMMANDS.copy, (from?: unknown) => forBoard.copy(from)),
    commands.registerCommand(BOARD_COMMANDS.copyChanges, (from?: unknown) => forBoard.copyChanges(from)),
    commands.registerCommand(BOARD_COMMANDS.save, (from?: unknown) => forBoard.save(from)),
    commands.registerCommand("fettle.showLog", () => output.show()),
    commands.registerCommand("fettle.practiseClash", async () => {
      // It is mended in the script, at the cursor: the keyboard stays there.
      await panel.showPositions({ uri: await practising.open("clash"), positions: CLASHING }, "left where it is");
    }),
    commands.registerCommand("fettle.practiseOsd", async () => panel.show("goggles", await practising.open("osd"))),
    commands.registerCommand("fettle.practiseReview", async () => {
      const offer = { kind: "text", text: FRIENDS_TEXT, name: "a friend's text" } as const;
      reviews.open({ mine: await practising.open(), offer, purpose: "review" });
    }),
    // Called from hovers only: without a line there is nothing to show, so it is not in the command palette.
    commands.registerCommand(LINE_COMMAND, (at: LinePlace) => selectLine(at)),
    // Called from findings only: without positions there is nothing to show, so it is not in the command palette.
    commands.registerCommand(POSITIONS_COMMAND, (shown: ShowPositions) => panel.showPositions(shown)),
    overlayCommand(panel),
    // Called by code actions that accept a finding.
    commands.registerCommand(ACCEPT_COMMAND, (argument: AcceptArgument) => acceptFinding(argument)),
    commands.registerCommand("fettle.showOrigin", () => origins.show()),
    commands.registerCommand("fettle.showHistory", () => showHistory({ ask, effective, drawnCraft: panel.drawnCraft })),
    // The git extension looks for repositories while a window opens, and as others come into sight.
    window.onDidChangeActiveTextEditor(revisions.watch),
    revisions.onDidChange(() => {
      void client.sendNotification(COMMITTED_NOTIFICATION);
      panel.refresh();
    }),
    commands.registerCommand("fettle.overrideHere", () => origins.change("override")),
    commands.registerCommand("fettle.moveToLayer", () => origins.change("move")),
    commands.registerCommand("fettle.extractLayer", () => origins.change("extract")),
    commands.registerCommand("fettle.inlineLayer", () => origins.change("inline")),
    // Called by code actions and from hovers, which say what is meant.
    commands.registerCommand(ORIGIN_COMMAND, (change: ChangeOrigin) => origins.follow(change)),
    commands.registerCommand("fettle.restartServer", async () => {
      // One that never started, or fell over, cannot be stopped.
      if (client.isRunning()) await client.stop();
      started = client.start();
      await started;
      panel.refresh();
      pages.refresh();
      changed();
    }),
  );
  // The page then says so, and offers to start it again.
  started.catch(() => panel.refresh());
  await openAtStart();
  await started;
  return client;
}

/** `typed` is called as soon as a change of a text has been sent to the server, before any other request. */
function clientOptions(output: LogOutputChannel, typed: () => void, useLines: UseLines): LanguageClientOptions {
  return {
    documentSelector: [
      { language: "fettle" },
      // A pilot's own words: problems in them are reported while they are written.
      { pattern: "**/*.catalogue.json" },
      { pattern: "**/*.aliases.json" },
    ],
    diagnosticPullOptions: { onChange: true, onTabs: true },
    initializationOptions: () => ({
      pageCommand: PAGE_COMMAND,
      lineCommand: LINE_COMMAND,
      pageLinkForm,
      positionsCommand: POSITIONS_COMMAND,
      benchCommand: BENCH_COMMAND,
      acceptCommand: ACCEPT_COMMAND,
      originCommand: ORIGIN_COMMAND,
      checksJson: true,
      draws: true,
      lensCommand: LENS_COMMAND,
      suggestCommand: "editor.action.triggerSuggest",
      // Asked for again once the server runs; sent with the first message, nothing is shown first that is turned off.
      // As plain data: a configuration has methods, which no message to a worker can carry.
      settings: JSON.parse(JSON.stringify(workspace.getConfiguration(SETTINGS_SECTION))),
    }),
    // A hover may lead to a page, to a line and to where a value comes from, and to nothing else.
    markdown: { isTrusted: { enabledCommands: [PAGE_COMMAND, LINE_COMMAND, ORIGIN_COMMAND] } },
    outputChannel: output,
    middleware: {
      ...leaveOutShown,
      async sendNotification(type, send, params) {
        await send(type, params);
        if (type === DidChangeTextDocumentNotification.type) typed();
      },
      workspace: useLines,
    },
  };
}
