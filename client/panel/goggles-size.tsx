/** The picture at the width of the page or, where its letters could not be read, at a width at which they can, with scrolling. */
import type { ComponentChildren } from "preact";
import { useRef } from "preact/hooks";
import { isReadable, readableWidthPx } from "../../shared/draw/magnifier.ts";
import type { GogglesPicture } from "../../shared/protocol/panel.ts";
import { postToHost } from "./host.ts";
import { useWidth } from "./use-width.ts";

interface Props {
  readonly picture: GogglesPicture;
  readonly size: "fitting" | "readable";
  readonly setSize: (size: Props["size"]) => void;
  readonly children: ComponentChildren;
}

/** In a narrower picture the labels of a comparison are too small to read, and only hide what they stand on. */
const LABELLED_PX = 320;

/** Offers to be larger only where that is of use: letters that are too small, and elements to read. */
export function Enlargeable({ picture, size, setSize, children }: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(frame);
  const inSideBar = document.querySelector("[data-place]")?.getAttribute("data-place") === "side";
  const tooSmall = widthPx > 0 && picture.elements.length > 0 && !isReadable({ ...picture, widthPx });
  const isLarge = tooSmall && size === "readable";
  return (
    <>
      <div class={isLarge ? "scrolled" : undefined} ref={frame} tabindex={isLarge ? 0 : undefined}>
        <div
          class={!isLarge && widthPx > 0 && widthPx < LABELLED_PX ? "unlabelled" : undefined}
          style={isLarge ? { width: `${readableWidthPx(picture)}px` } : undefined}
        >
          {children}
        </div>
      </div>
      {tooSmall && (
        <div class="gap">
          {!isLarge && <p class="quiet">At this width its letters cannot be read.</p>}
          <p class="tools">
            <button type="button" aria-pressed={isLarge} onClick={() => setSize(isLarge ? "fitting" : "readable")}>
              Larger
            </button>
            {inSideBar && (
              <button type="button" onClick={() => postToHost({ kind: "run", action: { name: "enlarge" } })}>
                Open beside the script
              </button>
            )}
          </p>
        </div>
      )}
    </>
  );
}
