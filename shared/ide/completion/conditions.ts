/** Offers for the next word of a condition. */
import type { Workspace } from "../../model/workspace.ts";
import type { ControlValue } from "../../syntax/value.ts";
import { describeControl, knownControls } from "../context/known-controls.ts";
import { type Offer, unitOffer } from "./completion-item.ts";

/** Offers in a condition; `written` is the text after `when` up to the position. */
export function offerConditions(workspace: Workspace, file: string, written: string): Offer[] {
  const tokens = written.match(/[()]|[^\s()]+/g) ?? [];
  if (/[^\s()]$/.test(written)) tokens.pop();
  const controls = knownControls(workspace, file);
  const last = tokens.at(-1);
  const before = tokens.at(-2);
  if (last === undefined || last === "and" || last === "or" || last === "(" || (last === "not" && before !== "is")) {
    return offerTests(workspace, controls, last === undefined);
  }
  if (last === "is" || (last === "not" && before === "is")) {
    return offerPositions(controls.get(tokens.at(last === "is" ? -2 : -3) ?? ""), last === "is");
  }
  if (/^[A-Z]/.test(last)) return offerTestWords(controls.get(last));
  if (/^ch\d+$/.test(last)) return BOUNDS;
  if (last === "in") return [pulseOffer(`\${1:1700} us to \${2:2000} us`, "a range, both ends included")];
  if (last === "above" || last === "below") return [pulseOffer(`\${1:1500} us`, "a bound, not included")];
  if (/^-?\d+(\.\d+)?$/.test(last)) return [unitOffer("us", 0)];
  if (last === "us" && tokens.at(-3) === "in") return [keywordOffer("to", "the upper end", 0)];
  return [keywordOffer("and", "both must hold", 1), keywordOffer("or", "one of them is enough", 2)];
}

function offerTests(workspace: Workspace, controls: ReadonlyMap<string, ControlValue>, first: boolean): Offer[] {
  const always: Offer = { label: "always", kind: "keyword", detail: "on at every moment", group: 7 };
  return [
    ...[...controls].map(
      ([label, value]): Offer => ({
        label,
        kind: "control",
        detail: describeControl(value),
        text: value.control === "dial" ? `${label} ` : `${label} is `,
        group: 1,
        retrigger: true,
      }),
    ),
    ...workspace.catalogue.modes.map(
      ({ name, what }): Offer => ({
        label: name,
        kind: "mode",
        detail: what,
        group: 3,
        doc: { of: "name", section: "modes", name },
      }),
    ),
    keywordOffer("not", "the opposite of what follows", 6),
    ...(first ? [always] : []),
  ];
}

function offerPositions(control: ControlValue | undefined, mayNegate: boolean): Offer[] {
  const positions = (control?.positions ?? []).map(({ name, pulseUs }, i): Offer => {
    const rest = control?.rest === name ? ", at rest" : "";
    return { label: name, kind: "position", detail: `${pulseUs} us${rest}`, group: Math.min(i, 7) };
  });
  return mayNegate ? [...positions, keywordOffer("not", "any position but", 8)] : positions;
}

const BOUNDS: Offer[] = [
  keywordOffer("in", "between two pulses, both included", 1),
  keywordOffer("above", "above a pulse", 2),
  keywordOffer("below", "below a pulse", 3),
];

function offerTestWords(control: ControlValue | undefined): Offer[] {
  return control?.control === "dial" ? BOUNDS : [keywordOffer("is", "at one of its positions", 0), ...BOUNDS];
}

/** A word of the grammar, and a blank behind it. */
export function keywordOffer(label: string, detail: string, group: number): Offer {
  return { label, kind: "keyword", detail, text: `${label} `, group, retrigger: true };
}

/** Pulses as a snippet. */
export function pulseOffer(text: string, detail: string): Offer {
  return { label: text.replace(/\$\{\d:(\d+)\}/g, "$1"), kind: "value", detail, text, snippet: true, group: 0 };
}

/** Offers the dials that a setting can follow. */
export function offerDial(workspace: Workspace, file: string): Offer[] {
  return [...knownControls(workspace, file)]
    .filter(([, value]) => value.control === "dial")
    .map(
      ([label, value]): Offer => ({
        label,
        kind: "control",
        detail: describeControl(value),
        text: `${label} `,
        group: 0,
        retrigger: true,
      }),
    );
}
