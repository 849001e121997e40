/** What the page adds to a drawn dial: a slider that is dragged, wheeled, and obeys the keys. */
import { adjustBriefly, adjustsBy } from "../../shared/draw/adjust-words.ts";
import { doesInWords, standsAt } from "../../shared/draw/control-words.ts";
import { controlInWords, dialPulseUs, dialRangeUs } from "../../shared/draw/words.ts";
import type { ControlsAt, PanelControl, SwitchesState } from "../../shared/protocol/panel.ts";
import { knobShare, pulseAtShare, turnedBy, turnedByKey, wheelSteps } from "./dial-turn.ts";
import { postToHost } from "./host.ts";

/** A circle in the window. */
interface Knob {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A drag, or a turn of the wheel, between two events. */
export interface DialHold {
  drag: {
    readonly control: string;
    readonly share: number | null;
    /** Where the knob was at first: the words above it may take more lines meanwhile, and push it down. */
    readonly knob: Knob;
    readonly from: ControlsAt;
  } | null;
  wheelPx: number;
}

/** The properties of a dial's knob. `at` gives the latest positions, `move` takes new ones. */
export function knobProps(
  control: PanelControl,
  state: SwitchesState,
  at: () => ControlsAt,
  move: (positions: ControlsAt) => void,
  hold: DialHold,
): Readonly<Record<string, unknown>> | undefined {
  const range = dialRangeUs(control);
  if (!range) return undefined;
  const turnTo = (pulseUs: number | null) => {
    if (pulseUs !== null && pulseUs !== at()[control.name]) move({ ...at(), [control.name]: pulseUs });
  };
  const now = () => dialPulseUs(control, at());
  const follow = (event: PointerEvent, drag: NonNullable<DialHold["drag"]>) => {
    const { x, y, radius } = drag.knob;
    const share = knobShare((event.clientX - x) / radius, (event.clientY - y) / radius, drag.share);
    hold.drag = { ...drag, share: share ?? drag.share };
    if (share !== null) turnTo(pulseAtShare(control, share));
  };
  const isHeld = () => hold.drag?.control === control.name;
  return {
    role: "slider",
    tabindex: 0,
    "aria-label": controlInWords(control),
    "aria-orientation": "vertical",
    "aria-valuemin": range.fromUs,
    "aria-valuemax": range.toUs,
    "aria-valuenow": dialPulseUs(control, state.positions),
    "aria-valuetext": valueText(control, state),
    onPointerDown: (event: PointerEvent) => {
      if (event.button !== 0 || !event.isPrimary || event.ctrlKey) return;
      const node = event.currentTarget as SVGElement;
      const knob = knobOf(node);
      if (!knob) return;
      node.setPointerCapture(event.pointerId);
      node.focus({ preventScroll: true });
      follow(event, { control: control.name, share: null, knob, from: at() });
    },
    onPointerMove: (event: PointerEvent) => {
      if (hold.drag && isHeld() && (event.currentTarget as SVGElement).hasPointerCapture(event.pointerId))
        follow(event, hold.drag);
    },
    onLostPointerCapture: () => {
      if (isHeld()) hold.drag = null;
    },
    onWheel: (event: WheelEvent) => {
      const turned = wheelSteps(event, hold.wheelPx);
      if (!turned || isScrolling()) return;
      event.preventDefault();
      event.stopPropagation();
      hold.wheelPx = turned.leftPx;
      if (turned.steps !== 0) turnTo(turnedBy(control, now(), turned.steps, event.shiftKey ? "fine" : "usual"));
    },
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key === "Escape" && hold.drag && isHeld()) {
        event.preventDefault();
        const { from } = hold.drag;
        hold.drag = null;
        return move(from);
      }
      const pulseUs = turnedByKey(control, now(), event);
      const opens = event.key === "Enter" && !event.ctrlKey && !event.altKey && !event.metaKey;
      if (pulseUs === null && !opens) return;
      event.preventDefault();
      if (opens) postToHost({ kind: "select", at: control.at });
      else turnTo(pulseUs);
    },
  };
}

/** What a screen reader says of a dial: its pulse, the settings that follow, the modes. */
function valueText(control: PanelControl, state: SwitchesState): string {
  const pulseUs = state.positions[control.name];
  const adjusts = adjustsBy(control.name, state).map(adjustBriefly);
  const span = control.spans.find((each) => standsAt(control, each, state.positions) === "here");
  const modes = span ? [doesInWords(control, span.modes, "here", state)] : [];
  const said = [...adjusts, ...(adjusts.length > 0 && span?.modes.length === 0 ? [] : modes)];
  const where = typeof pulseUs === "number" ? `${pulseUs} us` : "not set, may stand anywhere";
  return said.length > 0 ? `${where}: ${said.join("; ")}` : where;
}

function knobOf(node: Element): Knob | null {
  const circle = node.querySelector("circle")?.getBoundingClientRect();
  if (!circle) return null;
  const radius = circle.width / 2;
  return { x: circle.x + radius, y: circle.y + radius, radius };
}

/** For so long after a page was scrolled, the wheel goes on scrolling it also over a dial. */
const SCROLLS_ON_MS = 350;
let scrolledAt = Number.NEGATIVE_INFINITY;

/** Notes that the wheel scrolls the page; for the page's whole life. */
export function noteScrolling(): () => void {
  const note = ({ timeStamp }: Event) => {
    scrolledAt = timeStamp;
  };
  window.addEventListener("wheel", note, { passive: true });
  return () => window.removeEventListener("wheel", note);
}

function isScrolling(): boolean {
  return performance.now() - scrolledAt < SCROLLS_ON_MS;
}
