/** The packs of the numbers view: few are all drawn; of many the foremost, and the others are found and opened by name. */
import { useContext, useState } from "preact/hooks";
import { drawPack, packFacts, packName, packTableRows } from "../../shared/draw/pack.ts";
import { packLine, packListOf, packsFound, packsInWords } from "../../shared/draw/pack-list.ts";
import type { PackPicture } from "../../shared/protocol/numbers.ts";
import { ExplainButton } from "./explain-button.tsx";
import { loadState, saveState } from "./host.ts";
import { CursorLine, LineLink, useLineLink } from "./line-links.tsx";
import { sceneView } from "./scene-view.tsx";
import { TextTable } from "./text-table.tsx";
import { drawnWidth } from "./use-width.ts";

interface Props {
  readonly packs: readonly PackPicture[];
  readonly width: number;
  /** The width of one of several packs. */
  readonly packWidth: number;
}

/** How many packs are listed at first, and how many more with each press. */
const LISTED = 10;
const MORE = 40;

export function Packs({ packs, width, packWidth }: Props) {
  const { drawn, listed } = packListOf(packs, useContext(CursorLine));
  const each = packs.length > 1 ? packWidth : width;
  return (
    <>
      {listed.length > 0 && <h2>{packsInWords(packs)}</h2>}
      <div class="charts">
        {drawn.map((pack) => (
          <Pack key={pack.section} pack={pack} width={each} />
        ))}
      </div>
      {listed.length > 0 && <PackChoice packs={listed} width={width} />}
    </>
  );
}

/** A search, and the packs that it finds; one is drawn only while it is open. */
function PackChoice({ packs, width }: { readonly packs: readonly PackPicture[]; readonly width: number }) {
  const [{ search, open }, setChoice] = useState(loadState().packs);
  const [most, setMost] = useState(LISTED);
  const choose = (choice: { readonly search: string; readonly open: readonly string[] }) => {
    setChoice(choice);
    saveState({ packs: choice });
  };
  const toggle = (section: string) =>
    choose({ search, open: open.includes(section) ? open.filter((one) => one !== section) : [...open, section] });
  const found = packsFound(packs, search);
  const shown = found.slice(0, most);
  const left = found.length - shown.length;
  return (
    <section class="pack-choice">
      <label>
        Find a pack{" "}
        <input
          type="search"
          value={search}
          onInput={({ currentTarget }) => choose({ search: currentTarget.value, open })}
        />
      </label>
      <p class="quiet" role="status">
        {search.trim() === "" ? `${packs.length} more, by name, cells or capacity.` : foundInWords(found.length)}
      </p>
      <ul class="pack-list">
        {shown.map((pack) => {
          const isOpen = open.includes(pack.section);
          return (
            <li key={pack.section}>
              <button type="button" class="link" aria-expanded={isOpen} onClick={() => toggle(pack.section)}>
                {packLine(pack)}
              </button>
              {isOpen && <Pack pack={pack} width={width} />}
            </li>
          );
        })}
      </ul>
      {left > 0 && (
        <button type="button" onClick={() => setMost(most + MORE)}>
          {`${Math.min(left, MORE)} more of ${left}`}
        </button>
      )}
    </section>
  );
}

function foundInWords(count: number): string {
  if (count === 0) return "No pack has all of these words.";
  return count === 1 ? "One pack found." : `${count} packs found.`;
}

function Pack({ pack, width }: { readonly pack: PackPicture; readonly width: number }) {
  const scene = drawPack(pack, { width: drawnWidth(width), heading: "none" });
  const rows = packTableRows(pack);
  const [name, facts] = [packName(pack), packFacts(pack)];
  const lineLink = useLineLink();
  return (
    <section style={{ width: `${width}px` }}>
      <div class="head">
        <h2>{name}</h2>
        <ExplainButton of="section/pack" name="pack" />
        {facts !== "" && <LineLink at={pack.at} words={facts} of={name} />}
      </div>
      {sceneView(scene, ({ attributes }) => {
        const mark = pack.marks.find(({ name }) => name === attributes["data-mark"]);
        if (!mark) return undefined;
        return lineLink(mark.at, (rows.find(([name]) => name === mark.name) ?? []).filter(Boolean).join(", "));
      })}
      <TextTable head={["threshold", "V/cell", "pack, V", "usual, V/cell"]} rows={rows} name={name} />
    </section>
  );
}
