import { EMPTY_WORDS } from "./search.ts";

/**
 * The script of the reference's page: plain JavaScript for any current browser, small enough to be
 * part of the page. Without it every page is shown, one below the other.
 */
export const REFERENCE_SCRIPT = `
(() => {
  const query = document.getElementById("query");
  const results = document.getElementById("results");
  const contents = document.getElementById("contents");
  const found = document.getElementById("found");
  const main = document.querySelector("main");
  const most = 60;
  const empty = new Set("${[...EMPTY_WORDS].join(" ")}".split(" "));

  const plain = (text) => text.toLowerCase().replace(/[-_.]/g, " ");
  const entries = [...document.querySelectorAll("article[data-kind]")].map((article) => {
    const name = article.querySelector("h2").textContent;
    const summary = article.querySelector("h2 + p + p").textContent;
    const bare = article.dataset.kind === "setting" ? name.slice(name.indexOf(".") + 1) : name;
    return {
      id: article.id, kind: article.dataset.kind, name, summary,
      exact: [name.toLowerCase(), bare.toLowerCase()],
      names: plain(name), bare: plain(bare), words: plain(article.dataset.words), phrases: plain(article.dataset.words).split("; "), prose: plain(summary),
      text: plain(article.textContent),
    };
  });

  /* Lower is better; Infinity if any word does not occur. */
  const score = (entry, asked, words) => {
    if (entry.exact.includes(asked) || entry.exact.includes(words.join("-"))) return 0;
    const phrase = words.join(" ");
    if (entry.phrases.includes(phrase)) return 0.5;
    let sum = 0;
    for (const word of words) {
      if (entry.bare.startsWith(word)) sum += 1;
      else if ((" " + entry.names).includes(" " + word)) sum += 2;
      else if ((" " + entry.words).includes(" " + word)) sum += 3;
      else if (entry.names.includes(word) || entry.words.includes(word)) sum += 5;
      else if ((" " + entry.prose).includes(" " + word)) sum += 8;
      else if ((" " + entry.text).includes(" " + word)) sum += 20;
      else return Infinity;
    }
    if (words.length > 1 && (entry.words.includes(phrase) || entry.names.includes(phrase))) sum /= 4;
    // Of two equal matches, the shorter name comes first.
    return sum / words.length + entry.name.length / 1000;
  };

  const hitsOf = (asked, words) =>
    entries
      .map((entry) => ({ entry, at: score(entry, asked, words) }))
      .filter(({ at }) => at < Infinity)
      .sort((a, b) => a.at - b.at);

  const search = () => {
    const asked = query.value.trim().toLowerCase();
    const said = plain(asked).split(/[^a-z0-9/%]+/).filter(Boolean);
    const telling = said.filter((word) => word.length > 1 && !empty.has(word));
    const words = telling.length > 0 ? telling : said;
    contents.hidden = asked !== "";
    results.hidden = asked === "";
    results.replaceChildren();
    if (asked === "") {
      found.textContent = "";
      return;
    }
    let hits = hitsOf(asked, words);
    /* One word of several may be unknown: search for the best match of all others. */
    if (hits.length === 0 && words.length > 2)
      for (const word of words) {
        const fewer = hitsOf(asked, words.filter((each) => each !== word));
        if (fewer.length > 0 && (hits.length === 0 || fewer[0].at < hits[0].at)) hits = fewer;
      }
    for (const { entry } of hits.slice(0, most)) {
      const link = document.createElement("a");
      link.href = "#" + entry.id;
      const name = document.createElement("code");
      name.textContent = entry.name;
      const summary = document.createElement("span");
      summary.textContent = entry.kind + ": " + entry.summary;
      link.append(name, summary);
      const item = document.createElement("li");
      item.append(link);
      results.append(item);
    }
    const more = hits.length > most ? ", the best " + most + " shown" : "";
    found.textContent = hits.length === 0 ? "Nothing found: try other words." : hits.length + " found" + more;
  };

  /* Shows one page at a time, by the address; an unknown address shows the start. */
  const show = () => {
    const target = document.getElementById(location.hash.slice(1)) || document.getElementById("start");
    for (const article of document.querySelectorAll("article.shown")) article.classList.remove("shown");
    target.classList.add("shown");
    const entry = entries.find(({ id }) => id === target.id);
    document.title = (entry ? entry.name + " · " : "") + "Fettle reference";
    for (const link of document.querySelectorAll("nav a[aria-current]")) link.removeAttribute("aria-current");
    for (const link of document.querySelectorAll("nav a"))
      if (link.hash === "#" + target.id) link.setAttribute("aria-current", "page");
  };
  const arrive = () => {
    show();
    main.focus({ preventScroll: true });
    scrollTo(0, 0);
  };

  const step = (by) => {
    const links = [...results.querySelectorAll("a")];
    const at = links.indexOf(document.activeElement);
    if (at + by < 0) query.focus();
    else if (links[at + by]) links[at + by].focus();
  };
  addEventListener("keydown", (event) => {
    const inList = results.contains(document.activeElement);
    const inQuery = document.activeElement === query;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "/" && !inQuery) {
      query.focus();
      query.select();
    } else if (event.key === "Escape") {
      if (inQuery) query.value = "";
      query.focus();
      search();
    } else if (event.key === "ArrowDown" && (inList || inQuery)) step(1);
    else if (event.key === "ArrowUp" && inList) step(-1);
    else if (event.key === "Enter" && inQuery) {
      const first = results.querySelector("a");
      if (first) first.click();
    } else return;
    event.preventDefault();
  });
  query.addEventListener("input", search);
  addEventListener("hashchange", arrive);
  document.documentElement.classList.add("searching");
  show();
  search();
})();
`;

/**
 * What the page's policy permits this script by, and no other: its SHA-256 in Base64, as Content Security Policy Level 3
 * writes it. It changes with the script; a test says what it is.
 */
export const REFERENCE_SCRIPT_HASH = "sha256-OsmIDJh/UfV1vOEbFaHCpYqOPgxowsMOx4j/EcLkiWU=";
