/** The search of the page of names: what the server finds, as a list that arrow keys walk through. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { NamedPage } from "../../shared/protocol/pages.ts";
import { postToPageHost } from "./page-host.ts";

interface Props {
  /** The last answer, to what was typed then. */
  readonly found: { readonly typed: string; readonly names: readonly NamedPage[] } | null;
  readonly go: (name: string) => void;
}

/** More results are not read: another word narrows them. */
const MOST = 20;

/** The field, and what it finds below it. */
export function PageSearch({ found, go }: Props) {
  const [typed, setTyped] = useState("");
  const input = useRef<HTMLInputElement>(null);
  const list = useRef<HTMLUListElement>(null);
  /** Set by Enter while the answer to what is typed is still to come. */
  const wanted = useRef<string | null>(null);
  /** Whether the last key walked into the results. */
  const wasInList = useRef(false);
  const asked = typed.trim();
  const names = asked !== "" && found ? found.names.slice(0, MOST) : [];
  const isAnswered = found?.typed === asked;

  const choose = (page: NamedPage) => {
    setTyped("");
    go(`${page.kind}/${page.name}`);
  };
  const search = (text: string) => {
    setTyped(text);
    wanted.current = null;
    if (text.trim() !== "") postToPageHost({ kind: "search", typed: text.trim() });
  };
  const enter = (first: NamedPage | undefined) => {
    wanted.current = null;
    if (first) choose(first);
    // Of a name that nobody knows the page says what may be meant.
    else if (asked !== "") {
      setTyped("");
      go(asked);
    }
  };
  useEffect(() => {
    if (found && wanted.current === found.typed) enter(found.names[0]);
    // The result that had the focus may be gone with the next answer.
    else if (wasInList.current && document.activeElement === document.body)
      list.current?.querySelector<HTMLElement>("a")?.focus();
  }, [found]);
  useSlash(input);

  const onKeyDown = (event: KeyboardEvent) => {
    const links = [...(list.current?.querySelectorAll<HTMLElement>("a") ?? [])];
    const at = links.indexOf(document.activeElement as HTMLElement);
    wasInList.current = event.key === "ArrowDown" || (event.key === "ArrowUp" && at > 0);
    if (event.key === "ArrowDown") (links[at + 1] ?? links.at(-1))?.focus();
    else if (event.key === "ArrowUp") (links[at - 1] ?? input.current)?.focus();
    else if (event.key === "Escape" && typed !== "") {
      setTyped("");
      input.current?.focus();
    } else if (event.key === "Enter" && event.target === input.current) {
      if (isAnswered) enter(names[0]);
      else wanted.current = asked;
    } else return;
    event.preventDefault();
  };
  return (
    <search onKeyDown={onKeyDown}>
      <label class="unseen" for="query">
        Search names and plain words
      </label>
      <input
        id="query"
        ref={input}
        type="search"
        autocomplete="off"
        spellcheck={false}
        placeholder="Search names and plain words ( / )"
        aria-describedby="found"
        aria-controls="results"
        value={typed}
        onInput={({ currentTarget }) => search(currentTarget.value)}
      />
      <p id="found" class={asked !== "" && isAnswered && names.length === 0 ? "quiet" : "unseen"} role="status">
        {asked === "" || !isAnswered
          ? ""
          : names.length === 0
            ? "Nothing fits: try other words."
            : `${names.length} found`}
      </p>
      <ul id="results" class="results" ref={list} hidden={names.length === 0}>
        {names.map((page) => (
          <li key={`${page.kind}/${page.name}`}>
            <a
              href={`#${page.kind}/${page.name}`}
              onClick={(event) => {
                event.preventDefault();
                choose(page);
              }}
            >
              <code>{page.name}</code>
              <span class="quiet">
                {page.kind}: {page.summary}
              </span>
            </a>
          </li>
        ))}
      </ul>
    </search>
  );
}

/** The key / goes to the search from anywhere. */
function useSlash(input: { readonly current: HTMLInputElement | null }): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.key !== "/" || event.ctrlKey || event.altKey || event.metaKey) return;
      if (document.activeElement === input.current) return;
      event.preventDefault();
      input.current?.focus();
      input.current?.select();
    };
    document.addEventListener("keydown", onKeyDown);
    return () => document.removeEventListener("keydown", onKeyDown);
  }, []);
}
