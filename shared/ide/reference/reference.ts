/** The reference as files: a page with a search that needs no server, and the same content as Markdown. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { encodedPart } from "../../protocol/addresses.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { escapeHtml } from "../../text/html.ts";
import { colouredScript } from "./coloured-script.ts";
import { languagePage } from "./language-page.ts";
import { type OwnPages, ownPageOf } from "./language-words.ts";
import { pageOfCode } from "./links.ts";
import { htmlOf } from "./markdown-html.ts";
import { pageOfNamed } from "./page.ts";
import { everyName, listNames, type NamedPage, type NameKind, type PageName } from "./page-names.ts";
import { referenceHtml } from "./reference-html.ts";
import { searchWords } from "./search-texts.ts";
import { speedHtml, speedMarkdown } from "./speed/page.ts";

export interface ReferenceFile {
  /** Below the folder of the reference, with `/`. */
  readonly path: string;
  readonly text: string;
}

/** All files of the reference; the same catalogue gives the same bytes. */
export function referenceOf(catalogue: Catalogue): ReferenceFile[] {
  const groups = groupsOf(catalogue);
  return [{ path: "index.html", text: siteOf(catalogue, groups) }, ...markdownOf(catalogue, groups)];
}

interface Group {
  readonly title: string;
  readonly what: string;
  /** The Markdown file that holds its pages. */
  readonly file: string;
  readonly names: readonly NamedPage[];
}

/** A group for each section with its settings, then one for each other kind. */
function groupsOf(catalogue: Catalogue): Group[] {
  const all = listNames(catalogue);
  const ofOwnPage = (about: OwnPages) =>
    everyName(catalogue).filter(({ name, kind }) => kind === "word" && ownPageOf(name) === about);
  const ofKind = (kind: NameKind) => all.filter((each) => each.kind === kind);
  return [
    ...catalogue.sections.map(({ name, what }) => ({
      title: name,
      what,
      file: `sections/${name}.md`,
      names: all.filter(
        (each) =>
          (each.kind === "section" && each.name === name) ||
          (each.kind === "setting" && each.name.startsWith(`${name}.`)),
      ),
    })),
    { title: "Modes", what: "What switches turn on and off.", file: "modes.md", names: ofKind("mode") },
    { title: "Elements", what: "What can stand on the OSD.", file: "elements.md", names: ofKind("element") },
    { title: "Units", what: "What a number is followed by.", file: "units.md", names: ofKind("unit") },
    { title: "Rules", what: "What is checked.", file: "rules.md", names: ofKind("rule") },
    {
      title: "Dialects",
      what: "What a board's text means, and how to teach it.",
      file: "dialects.md",
      names: ofOwnPage("dialects"),
    },
    { title: "Git", what: "Keeping configurations in git.", file: "git.md", names: ofOwnPage("git") },
    { title: "Bench", what: "What to check before a craft flies.", file: "bench.md", names: ofOwnPage("bench") },
    { title: "Fleet", what: "All craft side by side.", file: "fleet.md", names: ofOwnPage("fleet") },
  ];
}

/** The page about the program itself, which is no name: neither a hover nor `fettle explain` has room for its tables. */
const SPEED = "speed";
const SPEED_WORDS = "speed; benchmark; how fast; slow; latency; memory; performance";

function siteOf(catalogue: Catalogue, groups: readonly Group[]): string {
  const meant = pageOfCode(catalogue);
  const html = (markdown: string, on: PageName | null) => {
    const linkTo = (name: string, chapter: string) => {
      const page = meant(name, chapter, on);
      return page && `#${idOf(page.kind, page.name)}`;
    };
    return htmlOf(markdown, linkTo, (script) => colouredScript(catalogue, script));
  };
  const nav = groups.map(({ title, names }) => {
    const items = names.map(({ name, kind }) => {
      const shown = kind === "setting" ? name.slice(name.indexOf(".") + 1) : name;
      return `<li><a href="#${idOf(kind, name)}">${escapeHtml(shown)}</a></li>`;
    });
    return `<details><summary>${escapeHtml(title)} <small>${names.length}</small></summary><ul>${items.join("")}</ul></details>`;
  });
  const articles = groups.flatMap(({ names }) =>
    names.map(({ name, kind }) => {
      const page = html(pageOfNamed(catalogue, { name, kind }), { name, kind });
      const words = searchWords(catalogue, name, kind).join("; ");
      return `<article id="${idOf(kind, name)}" data-kind="${kind}" data-words="${escapeHtml(words)}">\n${page}\n</article>`;
    }),
  );
  nav.push(`<p><a href="#${SPEED}">Speed</a></p>`);
  articles.push(`<article id="${SPEED}" data-kind="page" data-words="${SPEED_WORDS}">\n${speedHtml()}\n</article>`);
  const language = `<article id="language">\n${html(languagePage(), null)}\n</article>`;
  return referenceHtml({
    nav: nav.join("\n"),
    articles: [language, ...articles].join("\n"),
    counts: countsOf(catalogue),
  });
}

function countsOf(catalogue: Catalogue): string {
  const settings = catalogue.sections.flatMap((section) => section.settings).length;
  const { modes, elements } = catalogue;
  return `${settings} settings, ${modes.length} modes, ${elements.length} elements of the OSD, ${rules.length} rules`;
}

/** The id of an article and fragment of its address: special characters are escaped. */
function idOf(kind: NameKind, name: string): string {
  return `${kind}/${encodedPart(name).replaceAll("%", "_")}`;
}

function markdownOf(catalogue: Catalogue, groups: readonly Group[]): ReferenceFile[] {
  const contents = groups.map(({ title, what, file }) => `- [${title}](${file}): ${what}`).join("\n");
  const files = groups.map(({ file, title, names }) => {
    const pages = names.map((named) => pageOfNamed(catalogue, named));
    // A section's file begins with its own page; other files begin with a title.
    const [first = "", ...rest] = file.startsWith("sections/") ? pages : [`# ${title}`, ...pages];
    return { path: `markdown/${file}`, text: `${[first, ...rest.map(oneDeeper)].join("\n\n")}\n` };
  });
  const last = "- [Speed](speed.md): how fast the program answers, and how its cost grows";
  const first = "- [The language](language.md): how a script is written, and how files combine";
  return [
    { path: "markdown/README.md", text: `# Reference\n\n${countsOf(catalogue)}.\n\n${first}\n${contents}\n${last}\n` },
    { path: "markdown/language.md", text: `${languagePage()}\n` },
    ...files,
    { path: `markdown/${SPEED}.md`, text: `${speedMarkdown()}\n` },
  ];
}

/** Moves headings one level down, but not the notes in fenced scripts. */
function oneDeeper(page: string): string {
  let fenced = false;
  return page
    .split("\n")
    .map((line) => {
      if (line.startsWith("```")) fenced = !fenced;
      return !fenced && line.startsWith("#") ? `#${line}` : line;
    })
    .join("\n");
}
