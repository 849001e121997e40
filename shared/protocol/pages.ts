/** The pages of names: what client and server ask each other, and what crosses between the page and its host. */
import type { Uri } from "./addresses.ts";

/** A word is one of the language, such as `when`. */
export type NameKind = "setting" | "mode" | "element" | "rule" | "unit" | "section" | "word";

/** A name that can be explained. */
export interface NamedPage {
  /** A setting as SECTION.NAME. */
  readonly name: string;
  readonly kind: NameKind;
  /** What it is, in one sentence. */
  readonly summary: string;
}

/** What a page shows. */
export interface PageView {
  /** What was asked for: a name, or KIND/NAME. */
  readonly asked: string;
  readonly title: string;
  /** Made by the server of the reference's text alone; its links are `#KIND/NAME`. */
  readonly html: string;
}

/** `fettle/page`: the page of a name. There is always one: of an unknown name it offers those that are near. */
export const PAGE_REQUEST = "fettle/page";
export interface PageParams {
  readonly name: string;
}

/** `fettle/names`: the names that fit what is typed, the best first; all of them where nothing is typed. */
export const NAMES_REQUEST = "fettle/names";
export interface NamesParams {
  readonly typed: string;
  /** The cursor in a script: the name that stands there is given as `here`. */
  readonly at?: { readonly uri: Uri; readonly line: number; readonly character: number };
}
export interface NamesResult {
  readonly names: readonly NamedPage[];
  readonly here: NamedPage | null;
}

/** A client that has this command names it as `pageCommand`: it shows the page of a name, its one argument. */
export const PAGE_COMMAND = "fettle.showPage";

/** A client that has this command names it as `lineCommand`: it shows a line of a script, its one argument a `LinePlace`. */
export const LINE_COMMAND = "fettle.showLine";

/** From the host to the page. */
export type ToPage =
  /** Goes to the page of a name, which becomes the last of the history. */
  | { readonly kind: "go"; readonly name: string }
  /** The page that was asked for; null where the server gave none. */
  | { readonly kind: "page"; readonly asked: string; readonly page: PageView | null }
  | { readonly kind: "names"; readonly typed: string; readonly names: readonly NamedPage[] }
  /** What the pages are made of has changed. */
  | { readonly kind: "stale" };

/** From the page to its host. */
export type FromPage =
  | { readonly kind: "ready" }
  /** Asks for a page: the one that is to be shown. */
  | { readonly kind: "ask"; readonly name: string }
  | { readonly kind: "search"; readonly typed: string };
