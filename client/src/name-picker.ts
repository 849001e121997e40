/** The list of all names, each with what it is: searched by the server, so that plain words and slips are understood. */
import { type QuickPick, type QuickPickItem, QuickPickItemKind } from "vscode";
import { NAMES_REQUEST, type NamedPage, type NamesParams, type NamesResult } from "../../shared/protocol/pages.ts";
import type { Ask } from "./ask.ts";
import { makeList } from "./shown-window.ts";

type Cursor = NamesParams["at"];
type Item = QuickPickItem & { readonly page?: NamedPage };

const KINDS: Readonly<Record<NamedPage["kind"], string>> = {
  setting: "setting",
  mode: "mode",
  element: "element of the OSD",
  rule: "rule",
  unit: "unit",
  section: "section",
  word: "word of the language",
};

/** The address of the page of the name under the cursor; undefined where there is none. */
export async function nameAt(ask: Ask, at: Cursor): Promise<string | undefined> {
  const { here } = await namesFor(ask, "", at);
  return here ? addressOfPage(here) : undefined;
}

/** Asks for a name, the one under the cursor standing first; undefined where the list is left without one. */
export function pickName(ask: Ask, at: Cursor): Promise<string | undefined> {
  const pick = makeList<Item>();
  pick.title = "Explain a Name";
  pick.placeholder = "A name, or plain words for it: warn-at, low battery warning …";
  // Each answer stays until the next is there; `latest` is the one to what is typed now.
  let latest: Promise<void> = Promise.resolve();
  const search = () => {
    const typed = pick.value;
    pick.busy = true;
    latest = namesFor(ask, typed, typed.trim() === "" ? at : undefined).then((result) => {
      if (pick.value === typed) fill(pick, typed, result);
    });
  };
  search();
  pick.onDidChangeValue(search);
  pick.show();
  return new Promise((resolve) => {
    pick.onDidAccept(async () => {
      // Whoever types and presses Enter at once means what was typed.
      await latest;
      const page = (pick.activeItems[0] ?? pick.items.find((item) => item.page))?.page;
      if (!page) return;
      resolve(addressOfPage(page));
      pick.hide();
    });
    pick.onDidHide(() => {
      resolve(undefined);
      pick.dispose();
    });
  });
}

function fill(pick: QuickPick<Item>, typed: string, { names, here }: NamesResult): void {
  const others = names.filter((each) => each.kind !== here?.kind || each.name !== here.name);
  const title = (label: string): Item => ({ label, kind: QuickPickItemKind.Separator });
  pick.items = [
    ...(here ? [title("under the cursor"), itemOf(here), title("all names")] : []),
    ...others.map(itemOf),
    ...(names.length === 0 ? [nothingFor(typed)] : []),
  ];
  const first = pick.items.find((item) => item.page);
  if (first) pick.activeItems = [first];
  pick.busy = false;
}

function itemOf(page: NamedPage): Item {
  // The server has searched already: what it found is shown, also by words that are not in the name.
  return { label: page.name, description: KINDS[page.kind], detail: page.summary, alwaysShow: true, page };
}

function nothingFor(typed: string): Item {
  return { label: `Nothing fits “${typed}”`, detail: "Try other words, or fewer of them.", alwaysShow: true };
}

async function namesFor(ask: Ask, typed: string, at: Cursor): Promise<NamesResult> {
  return ask<NamesResult>(NAMES_REQUEST, { typed, ...(at && { at }) } satisfies NamesParams);
}

function addressOfPage({ kind, name }: NamedPage): string {
  return `${kind}/${name}`;
}
