/** What is found of the elements of a page, each with the buttons that repair it. */
import type { ElementFault, PanelElement } from "../../shared/protocol/panel.ts";
import { Ways } from "./ways.tsx";

/** All findings of one element. */
export function Faults({ faults }: Pick<PanelElement, "faults">) {
  return faults.map((fault) => <Fault key={`${fault.code} ${fault.message}`} fault={fault} />);
}

function Fault({ fault: { severity, message, ways } }: { readonly fault: ElementFault }) {
  return (
    <div class={`finding ${severity}`}>
      <p>{message}</p>
      <Ways ways={ways} rank="second" />
    </div>
  );
}

interface Props {
  readonly elements: readonly PanelElement[];
  /** The chosen element, whose findings stand beside it already. */
  readonly but: PanelElement | null;
}

/** More than these are folded. */
const MOST_OPEN = 2;

/** What is marked in the picture, once for all elements that share a cause. */
export function PageFaults({ elements, but }: Props) {
  const told = new Set(but?.faults.map(({ message }) => message));
  const faults = new Map<string, ElementFault>();
  for (const element of elements) {
    for (const fault of element.faults) {
      if (fault.marked && !told.has(fault.message) && !faults.has(fault.message)) faults.set(fault.message, fault);
    }
  }
  const all = [...faults.values()];
  if (all.length === 0) return null;
  if (all.length <= MOST_OPEN) return <Faults faults={all} />;
  return (
    <details>
      <summary>{all.length} findings on this page, marked with “!”</summary>
      <Faults faults={all} />
    </details>
  );
}
