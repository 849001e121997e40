/** The goggles: the picture, and the same as a list. */
import { drawGoggles } from "../../shared/draw/goggles.ts";
import { elementInWords } from "../../shared/draw/words.ts";
import type { GogglesPicture, LinePlace } from "../../shared/protocol/panel.ts";
import { tell } from "./host.ts";
import { type Enrich, pressable, sceneView } from "./scene-view.tsx";

export function GogglesView({ picture, marked }: { picture: GogglesPicture; marked: LinePlace | null }) {
  const enrich: Enrich = ({ attributes }) => {
    if (attributes.class === "goggles") return { role: "group", "aria-label": picturesSize(picture) };
    const name = attributes["data-element"];
    const element = picture.elements.find((one) => one.name === name && one.at.line === attributes["data-line"]);
    if (!element) return undefined;
    return {
      ...pressable(() => tell({ kind: "select", at: element.at })),
      "aria-label": elementInWords(element),
    };
  };
  const amiss = picture.elements.filter(({ clashing }) => clashing.length > 0);
  return (
    <>
      {sceneView(drawGoggles(picture, { marked }), enrich)}
      <p class="quiet">
        {picturesSize(picture)}
        {picture.safe ? ", the safe area dotted." : "."}
      </p>
      {amiss.length > 0 && (
        <p class="warning">Hatched cells are shared or off the grid: {amiss.map(({ name }) => name).join(", ")}.</p>
      )}
      <details>
        <summary>The picture as a list</summary>
        <ul class="list">
          {picture.elements.map((element) => (
            <li key={element.name}>
              <button type="button" class="link" onClick={() => tell({ kind: "select", at: element.at })}>
                {element.name}
              </button>{" "}
              {elementInWords(element).slice(element.name.length).trimStart().replace(/^, /, "")}
              <span class="quiet block">{element.what}</span>
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}

function picturesSize({ columns, rows, elements }: GogglesPicture): string {
  const count = elements.length === 1 ? "1 element" : `${elements.length} elements`;
  return `${count} on ${columns} by ${rows} cells`;
}
