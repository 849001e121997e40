/** The picture itself: rendered with every model, and changed between models by its mover. */
import type { RefObject } from "preact";
import { useLayoutEffect, useMemo, useRef } from "preact/hooks";
import { drawGoggles } from "../../shared/draw/goggles.ts";
import { elementInWords, sharingInWords } from "../../shared/draw/words.ts";
import type { GogglesAgainst } from "../../shared/protocol/against.ts";
import type { LinePlace, PanelElement } from "../../shared/protocol/panel.ts";
import { DRAWING_ID, makeMagnifier, OVERLAY_ID } from "./goggles-magnifier.ts";
import { type Mover, makeMover } from "./goggles-mover.ts";
import type { GogglesDrawing } from "./goggles-placement.ts";
import { type Enrich, sceneView } from "./scene-view.tsx";

interface Props extends GogglesDrawing {
  readonly marked: LinePlace | null;
  readonly label: string;
  readonly mover: RefObject<Mover | null>;
  readonly magnified: boolean;
  readonly choose: (name: string) => void;
  /** What differs on the other side of a comparison, where both are shown. */
  readonly against: GogglesAgainst | null;
}

/** The picture with its overlay; `choose` is called with the element that gets the focus. */
export function GogglesPictureView({ marked, label, mover, magnified, choose, against, ...shown }: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const { picture } = shown;
  const scene = useMemo(() => drawGoggles(picture, { marked, against }), [picture, marked, against]);
  useLayoutEffect(() => {
    const made = makeMover(frame.current!);
    mover.current = made;
    return () => {
      made.dispose();
      mover.current = null;
    };
  }, [mover]);
  useLayoutEffect(() => mover.current?.show(shown));
  // At once: the pointer may already be over the picture when the magnifier appears.
  useLayoutEffect(() => {
    if (!magnified) return undefined;
    const { dispose } = makeMagnifier(frame.current!, picture.columns);
    return dispose;
  }, [magnified, picture.columns]);

  const byName = new Map(picture.elements.map((element) => [element.name, element]));
  const enrich: Enrich = ({ attributes }) => {
    if (attributes.class === "goggles") {
      const id = DRAWING_ID;
      if (picture.preview) return { id, role: "group", "aria-label": label };
      // With the role "application" a screen reader passes the arrow keys on to the picture.
      return { id, role: "application", "aria-label": label, "aria-describedby": "moving-keys" };
    }
    if ("data-there" in attributes) return { role: "img", "aria-label": attributes["data-words"] };
    const element = byName.get(String(attributes["data-element"]));
    return element && elementProps(element);
  };
  const onFocusIn = ({ target }: FocusEvent) => {
    const name = (target as Element).closest<SVGElement>("[data-element]")?.dataset.element;
    if (name) choose(name);
  };
  return (
    <div class="picture" ref={frame} onFocusIn={onFocusIn}>
      {sceneView(scene, enrich)}
      <svg class="overlay" id={OVERLAY_ID} viewBox={String(scene.attributes.viewBox)} aria-hidden="true">
        <path class="guides" data-part="guides" />
        <path class="met" data-part="met" />
        <path class="hatched" data-part="hatch" />
      </svg>
      {magnified && (
        <div class="lens" data-part="lens" aria-hidden="true" hidden>
          <svg preserveAspectRatio="none" aria-hidden="true">
            <use href={`#${DRAWING_ID}`} />
            <use href={`#${OVERLAY_ID}`} />
          </svg>
        </div>
      )}
      <p class="moving-note" data-part="note" aria-hidden="true" hidden>
        <span />
        <code />
      </p>
      <p class="moving-amiss" data-part="amiss" aria-hidden="true" />
      <p class="unseen" data-part="live" role="status" />
    </div>
  );
}

function elementProps(element: PanelElement): Readonly<Record<string, unknown>> {
  const flashes = element.flashes ? "; flashes" : "";
  const others = sharingInWords(element.sharedWith);
  const also = others ? `; also on ${others}` : "";
  return { role: "button", tabindex: 0, "aria-label": `${elementInWords(element)}${flashes}${also}` };
}
