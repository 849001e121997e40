/** The language server, for every host: it asks the core, and speaks the protocol. */
import type { CancellationToken, Connection } from "vscode-languageserver";
import { answerActions } from "./actions.ts";
import { answerBench } from "./bench.ts";
import { answerBoard } from "./board.ts";
import { answerBoardWrite } from "./board-write.ts";
import { type Abilities, abilitiesOf, capabilitiesFor } from "./capabilities.ts";
import { tellClosedFindings } from "./closed-findings.ts";
import { watchClosedScripts } from "./closed-scripts.ts";
import { answerCompare } from "./compare.ts";
import { type Documents, makeDocuments, type ServerFiles } from "./documents.ts";
import type { DocumentsEvents } from "./documents-events.ts";
import { answerFeatures } from "./features.ts";
import { answerFleet } from "./fleet.ts";
import { answerFleetEdits } from "./fleet-edits.ts";
import { INITIALIZE, logError, makeGuard } from "./guard.ts";
import { answerHierarchies } from "./hierarchies.ts";
import { answerHints } from "./hints.ts";
import { answerHistory } from "./history.ts";
import { answerInsertions } from "./insertions.ts";
import { type KeptSettings, keepSettings } from "./keep-settings.ts";
import { answerLayout } from "./layout.ts";
import { type Lifetime, makeLifetime } from "./lifetime.ts";
import { answerMapControls } from "./map-controls.ts";
import { answerMotorEdits } from "./motor-edits.ts";
import { answerNames } from "./names.ts";
import { answerNewCraft } from "./new-craft.ts";
import { answerNewHandset } from "./new-handset.ts";
import { answerOrigin } from "./origin.ts";
import { answerOsdEdits } from "./osd-edits.ts";
import { readsOthers } from "./other-side.ts";
import { answerPages, linksFor, linkTargets } from "./pages.ts";
import { answerPanel } from "./panel.ts";
import { foldersOf } from "./paths.ts";
import { shownProgress } from "./progress.ts";
import { makePublisher, type Publisher } from "./publish.ts";
import { answerDiagnostics } from "./pulled-diagnostics.ts";
import { CODES, Refused, type ResponseErrorClass } from "./refused.ts";
import { answerReview } from "./review.ts";
import { answerShare } from "./share.ts";
import { answerStructure } from "./structure.ts";
import { synchronise } from "./synchronise.ts";
import type { PageOfRule } from "./to-lsp.ts";
import { toldOnce } from "./together.ts";
import { answerTokens } from "./tokens.ts";
import { takeTurns } from "./turns.ts";
import { answerUseLines } from "./use-lines.ts";
import { answerValues } from "./values.ts";
import { type MakeWarmUp, makeWarmUp } from "./warm-up.ts";
import { answerWorkspaceSymbols } from "./workspace-symbols.ts";
import { answerWorkspaceTree } from "./workspace-tree.ts";

/** What a client may say of itself when it starts the server, besides what the protocol has. */
interface Options {
  readonly pageBase?: unknown;
  readonly pageCommand?: unknown;
  readonly lineCommand?: unknown;
  readonly pageLinkForm?: unknown;
  readonly positionsCommand?: unknown;
  readonly benchCommand?: unknown;
  readonly acceptCommand?: unknown;
  readonly originCommand?: unknown;
  /** True where the editor itself tells what is no JSON. */
  readonly checksJson?: unknown;
  /** True where the client draws the panel, and is told when it is out of date. */
  readonly draws?: unknown;
  /** What the user has set, as the section “fettle” of an editor's settings has it. */
  readonly settings?: unknown;
  readonly lensCommand?: unknown;
  /** Asks for completion again, after a name whose value is expected. */
  readonly suggestCommand?: unknown;
}

/**
 * Serves a connection until it ends; `files` is what the host can reach beyond the editor's open
 * documents, `ResponseError` the class of the host's own protocol library, `warmUpOf` the process's warm-up. Gives
 * how far it is between the first message and the last.
 */
export function startServer(
  connection: Connection,
  files: ServerFiles,
  ResponseError: ResponseErrorClass,
  warmUpOf: MakeWarmUp = makeWarmUp,
): Lifetime {
  const warmUp = warmUpOf((error) => logError(connection, "warm-up", error));
  const turns = takeTurns();
  const lifetime = makeLifetime();
  const guard = makeGuard({
    connection,
    lifetime,
    ResponseError,
    onMessage() {
      turns.heard();
      warmUp();
    },
  });
  const events: DocumentsEvents = {
    listingCut: () => connection.console.warn(LISTING_CUT),
    listedLate: () => void publisher.wordsChanged(),
    reading: shownProgress(connection, "Fettle reads the scripts"),
    pastsFound: () => publisher.changedOutside(),
    habitsFound: () => publisher.changedOutside(),
    togetherFound: () => publisher.changedOutside(),
    togetherRefused: toldOnce((why) => connection.console.warn(why)),
    failed: (error) => logError(connection, "background", error),
  };
  const documents: Documents = makeDocuments(files, events, turns);
  let client: Abilities = abilitiesOf({});
  let links = linksFor({});
  let positionsCommand: string | null = null;
  let benchCommand: string | null = null;
  let lensCommand: string | null = null;
  let suggestCommand: string | null = null;
  let acceptCommand: string | null = null;
  let originCommand: string | null = null;
  let checksJson = false;
  let draws = false;
  const abilities = () => client;
  const editForm = () => (client.versionsEdits ? ("versioned" as const) : ("plain" as const));
  const pageOfRule: PageOfRule = (code) => links.pageOfCode(code);
  const closedScripts = watchClosedScripts({
    documents,
    turns,
    pageOfRule,
    isWanted: () => settings.now().findsInClosed,
    tooMany: (most) => connection.console.warn(`Only the first ${most} scripts that are not open ${TOO_MANY}`),
    failed: (error) => logError(connection, "closed scripts", error),
  });
  const closed = tellClosedFindings({ connection, documents, scripts: closedScripts });
  const publisher: Publisher = makePublisher({
    connection,
    documents,
    guard,
    abilities,
    pageOfRule,
    closedScripts,
    checksJson: () => checksJson,
    draws: () => draws,
  });
  const settings: KeptSettings = keepSettings({
    connection,
    guard,
    abilities,
    changed({ levels, together }) {
      documents.setLevels(levels);
      documents.setTogether(together);
      publisher.changedOutside();
    },
  });
  const nothing = { capabilities: capabilitiesFor(client) };

  connection.onInitialize(
    guard(INITIALIZE, nothing, (params) => {
      lifetime.begin();
      const { capabilities, initializationOptions } = params;
      client = abilitiesOf(capabilities);
      const options: Options = initializationOptions ?? {};
      positionsCommand = commandIn(options.positionsCommand);
      benchCommand = commandIn(options.benchCommand);
      lensCommand = commandIn(options.lensCommand);
      suggestCommand = commandIn(options.suggestCommand);
      links = linksFor(options);
      acceptCommand = commandIn(options.acceptCommand);
      originCommand = commandIn(options.originCommand);
      checksJson = options.checksJson === true;
      draws = options.draws === true;
      settings.begin(options.settings);
      documents.setLevels(settings.now().levels);
      documents.setTogether(settings.now().together);
      documents.setFolders(foldersOf(params));
      return { capabilities: capabilitiesFor(client), serverInfo: { name: "fettle" } };
    }),
  );
  connection.onShutdown(guard("shutdown", undefined, () => lifetime.shutDown()));
  connection.onExit(() => lifetime.exit());
  // Whatever has no handler of its own.
  connection.onRequest(
    guard<[string, unknown, CancellationToken], never>("unknown request", undefined as never, (method) => {
      throw new Refused(`“${method}” is no request that this server answers.`, CODES.methodNotFound);
    }),
  );
  synchronise({ connection, documents, guard, abilities, publisher, settings, closed });
  answerDiagnostics({ connection, documents, guard, pageOfRule, closed, settings: settings.now });
  answerFeatures({
    connection,
    documents,
    guard,
    abilities,
    settings: settings.now,
    lensCommand: () => lensCommand,
    suggestCommand: () => suggestCommand,
    links: () => linkTargets(links, documents.uriOf),
  });
  answerTokens({ connection, documents, guard, abilities });
  answerHints({ connection, documents, guard, abilities, settings: settings.now });
  answerStructure(connection, documents, guard);
  answerLayout(connection, documents, guard);
  answerWorkspaceSymbols({ connection, documents, guard, abilities });
  answerHierarchies(connection, documents, guard);
  answerActions({
    connection,
    documents,
    guard,
    editForm,
    pageOfRule,
    positionsCommand: () => positionsCommand,
    benchCommand: () => benchCommand,
    takesActions: () => client.takesActions,
    acceptForm: () => ({
      edits: editForm(),
      command: acceptCommand,
      snippets: client.snippetEdits,
      creates: client.createsFiles && client.versionsEdits,
    }),
    originForm: () => ({
      edits: editForm(),
      command: originCommand,
      creates: client.createsFiles && client.versionsEdits,
    }),
  });
  answerValues(connection, documents, guard, abilities);
  answerNames({ connection, documents, guard, abilities });
  answerUseLines({ connection, documents, guard, abilities, settings: settings.now });
  answerNewCraft(connection, documents, guard);
  answerNewHandset(connection, documents, guard);
  answerMapControls(connection, documents, guard);
  answerOsdEdits(connection, documents, guard);
  answerMotorEdits(connection, documents, guard);
  answerBench(connection, documents, guard);
  const readOther = readsOthers(connection, documents);
  answerCompare(connection, documents, guard, readOther);
  answerReview(connection, documents, guard, readOther);
  answerInsertions(connection, documents, guard);
  answerOrigin(connection, documents, guard);
  answerHistory(connection, documents, guard, readOther);
  answerShare(connection, documents, guard);
  answerBoard({ connection, documents, guard, links: () => links });
  answerBoardWrite(connection, documents, guard);
  answerPages(connection, documents, guard);
  answerPanel(connection, documents, guard, readOther);
  answerFleet(connection, documents, guard);
  answerFleetEdits(connection, documents, guard);
  answerWorkspaceTree(connection, documents, guard, closedScripts);
  connection.listen();
  return lifetime;
}

function commandIn(option: unknown): string | null {
  return typeof option === "string" && option !== "" ? option : null;
}

const LISTING_CUT =
  "The workspace has more folders or files than are looked through. Scripts and own words beyond them are not offered; those that a “use” names are read all the same. Open a smaller folder to have all of them.";

const TOO_MANY = "are checked; the others are once they are opened. Open a smaller folder to have all of them checked.";
