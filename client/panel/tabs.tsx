/** The views as tabs; arrow keys change between them. */
import type { ComponentChildren } from "preact";
import type { ViewName } from "../../shared/protocol/panel.ts";

const TITLES: Readonly<Record<ViewName, string>> = {
  goggles: "Goggles",
  switches: "Switches",
  numbers: "Numbers",
  bench: "Bench",
  fleet: "Fleet",
};
const NAMES = Object.keys(TITLES) as ViewName[];

interface Props {
  readonly view: ViewName;
  readonly choose: (view: ViewName) => void;
  readonly children: ComponentChildren;
}

/** The tabs, and below them the chosen view. */
export function Tabs({ view, choose, children }: Props) {
  const onKeyDown = (event: KeyboardEvent) => {
    const at = NAMES.indexOf(view);
    const to = { ArrowLeft: at - 1, ArrowRight: at + 1, Home: 0, End: NAMES.length - 1 }[event.key];
    const next = to === undefined ? undefined : NAMES[(to + NAMES.length) % NAMES.length];
    if (!next) return;
    event.preventDefault();
    choose(next);
    document.getElementById(`tab-${next}`)?.focus();
  };
  return (
    <>
      <div role="tablist" aria-label="Views of the script" onKeyDown={onKeyDown}>
        {NAMES.map((name) => (
          <button
            type="button"
            role="tab"
            key={name}
            id={`tab-${name}`}
            aria-selected={name === view}
            aria-controls="view"
            tabIndex={name === view ? 0 : -1}
            onClick={() => choose(name)}
          >
            {TITLES[name]}
          </button>
        ))}
      </div>
      <div role="tabpanel" id="view" aria-labelledby={`tab-${view}`}>
        {children}
      </div>
    </>
  );
}
