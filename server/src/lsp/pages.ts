/** The pages of names: their addresses for a client, and the requests by which it shows them. */
import type { Connection } from "vscode-languageserver";
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import type { LinkTargets } from "../../../shared/ide/hover/hover.ts";
import { pageNameAt } from "../../../shared/ide/reference/page-name-at.ts";
import { everyName, type PageName, pageAddress } from "../../../shared/ide/reference/page-names.ts";
import { namedPage, pageView } from "../../../shared/ide/reference/page-view.ts";
import { searchNames } from "../../../shared/ide/reference/search.ts";
import { asUri, encodedPart, type Uri } from "../../../shared/protocol/addresses.ts";
import type { LinePlace } from "../../../shared/protocol/findings.ts";
import type { ChangeOrigin } from "../../../shared/protocol/origin.ts";
import {
  NAMES_REQUEST,
  type NamedPage,
  type NamesParams,
  type NamesResult,
  PAGE_REQUEST,
  type PageParams,
  type PageView,
} from "../../../shared/protocol/pages.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import type { UriOf } from "./to-lsp.ts";

/** What a client says of itself: the commands that it has, and where pages lie on the web. */
interface LinkOptions {
  readonly pageBase?: unknown;
  readonly pageCommand?: unknown;
  readonly lineCommand?: unknown;
  readonly originCommand?: unknown;
  /** How the address of a page is written where no command may stand; `{page}` is KIND/NAME. */
  readonly pageLinkForm?: unknown;
}

/** The address of a name's page; null where there are no pages. */
export type PageOfName = (page: PageName) => string | null;

/** The addresses that hovers and findings lead to, for one client. */
export interface Links {
  readonly pageOf: PageOfName;
  /** The same for the code of a finding, whose link an editor never takes for a command. */
  readonly pageOfCode: (code: string) => string | null;
  readonly lineOf: (uri: string, line: number) => string;
  /** By the client's own command; null where it has none. */
  readonly overrideOf: (uri: Uri, line: number, craft: Uri) => string | null;
}

/**
 * A page is shown by a command of the client's own, which may be followed from a hover where the address of a document
 * may not; else it lies on the web. A line is shown by a command too; else its address is that of its file, which
 * editors follow.
 */
export function linksFor({ pageBase, pageCommand, lineCommand, originCommand, pageLinkForm }: LinkOptions): Links {
  const call = (command: string, argument: string | LinePlace | ChangeOrigin) =>
    `command:${command}?${encodedPart(JSON.stringify([argument]))}`;
  const base = typeof pageBase === "string" && /^https?:/.test(pageBase) ? pageBase.replace(/\/?$/, "/") : null;
  const onWeb: PageOfName = ({ kind, name }) => base && `${base}${kind}/${encodedPart(name)}.md`;
  return {
    pageOf: isName(pageCommand) ? (page) => call(pageCommand, pageAddress(page)) : onWeb,
    pageOfCode: isName(pageLinkForm)
      ? (code) => pageLinkForm.replace("{page}", `rule/${code}`)
      : (code) => onWeb({ kind: "rule", name: code }),
    lineOf: isName(lineCommand)
      ? (file, line) => call(lineCommand, { file, line })
      : (file, line) => `${file}#L${line + 1}`,
    overrideOf(uri, line, craft) {
      const at = { line, character: 0 };
      const change: ChangeOrigin = { uri, craft, action: "override", range: { start: at, end: at } };
      return isName(originCommand) ? call(originCommand, change) : null;
    },
  };
}

function isName(option: unknown): option is string {
  return typeof option === "string" && option !== "";
}

/** The same for the core, which knows files by their paths. */
export function linkTargets({ pageOf, lineOf, overrideOf }: Links, uriOf: UriOf): LinkTargets {
  return {
    page: pageOf,
    line: ({ file, line }) => lineOf(uriOf(file), line),
    override: ({ file, line }, craft) => overrideOf(asUri(uriOf(file)), line, asUri(uriOf(craft))),
  };
}

/** Answers what the client's list of names and its page show. */
export function answerPages(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest(
    PAGE_REQUEST,
    guard<[PageParams], PageView | null>("page", null, async ({ name }) => {
      await documents.words.load();
      return pageView(documents.now().catalogue, name);
    }),
  );
  connection.onRequest(
    NAMES_REQUEST,
    guard<[NamesParams], NamesResult>("names", { names: [], here: null }, async ({ typed, at }) => {
      await documents.words.load();
      const file = at && (await documents.load(at.uri));
      const workspace = documents.now();
      const here = file === undefined ? null : pageNameAt(workspace, file, at!);
      const found = here && namedPage(workspace.catalogue, here);
      return { names: namesFor(workspace.catalogue, typed).map(asText), here: found && asText(found) };
    }),
  );
}

/** A list shows no Markdown: words of a script stand in it as they are. */
function asText(page: NamedPage): NamedPage {
  return page.summary.includes("`") ? { ...page, summary: page.summary.replaceAll("`", "") } : page;
}

/** More are not read: another word narrows them. */
const MOST_NAMES = 60;

function namesFor(catalogue: Catalogue, typed: string): readonly NamedPage[] {
  if (typed.trim() === "") return everyName(catalogue);
  return searchNames(catalogue, typed, MOST_NAMES).map(({ page }) => page);
}
