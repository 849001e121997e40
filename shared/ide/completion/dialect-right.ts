/** Completion of the right side of a line: our name, its value with the slots of the left side, fields, units. */
import type { SettingSpec, SimpleType, ValueType } from "../../catalogue/specs.ts";
import { isMapped } from "../../dialect/sections.ts";
import { adjustable } from "../../model/read-entry.ts";
import { unitsLike } from "../../model/read-simple.ts";
import { RIGHT_WORDS } from "../dialect-files/words.ts";
import { type Offer, unitOffer } from "./completion-item.ts";
import { choicesOf } from "./dialect-codes.ts";
import { type InDialect, wordOffer } from "./dialect-context.ts";
import { type LeftSlot, leftSlotsOf } from "./dialect-slots.ts";

/** Offers behind the board's text of a line, and behind `cannot`. */
export function offerRightSide(at: InDialect): Offer[] {
  const { workspace, section, fact, before } = at;
  const spec = workspace.catalogue.section(section);
  if (!fact || !spec || !isMapped(spec)) return [];
  if (fact.kind === "cannot") return offerCannot(at);
  if (fact.kind === "under" || fact.texts.length === 0) return [];
  const behind = before.slice(fact.texts.at(-1)!.end);
  // Without a blank the name would stick to the quotes.
  if (behind === "") return [];
  const slots = leftSlotsOf(at);
  if (/^\s+[a-z0-9-]*$/.test(behind)) return [...offerNames(at, slots), ...nameSlots(slots)];
  const [, name = "", rest = ""] = /^\s+(\S+)\s+(.*)$/s.exec(behind) ?? [];
  return name === "" ? [] : offerValue(at, name, rest, slots);
}

function offerCannot(at: InDialect): Offer[] {
  const said = new Set(at.before.trim().split(/\s+/));
  if (said.has("all")) return [];
  const names = namedIn(at).map(
    ({ label, detail, kind, doc }): Offer => ({ label, detail: detail ?? "", kind, doc: doc ?? null, group: 2 }),
  );
  const all: Offer = { label: "all", kind: "keyword", detail: "the whole section", group: 1 };
  return [...(said.size === 1 ? [all] : []), ...names.filter(({ label }) => !said.has(label))];
}

/** The names of the section, each with a value made of the slots that are not used yet. */
function offerNames(at: InDialect, slots: readonly LeftSlot[]): Offer[] {
  const free = slots.filter(({ isUsed }) => !isUsed);
  return namedIn(at).map((offer) => {
    const value = valueSnippet(at, offer.label, free);
    return value === null ? offer : { ...offer, text: `${offer.label} ${value}`, snippet: true };
  });
}

function namedIn({ workspace: { catalogue }, section }: InDialect): Offer[] {
  const spec = catalogue.section(section)!;
  const offer =
    (kind: Offer["kind"]) =>
    ({ name, what, words }: { name: string; what: string; words?: readonly string[] }): Offer => ({
      label: name,
      kind,
      detail: what,
      words: words ?? [],
      group: 2,
      doc: { of: "name", section, name },
    });
  switch (spec.holds) {
    case "modes":
      return catalogue.modes.map(offer("mode"));
    case "places":
      return [...catalogue.elements.map(offer("element")), ...catalogue.settingsOf(section).map(offer("setting"))];
    case "follows":
      return catalogue.sections
        .flatMap((each) => each.settings)
        .filter((each) => adjustable(each.name, catalogue) === each)
        .map(offer("setting"));
    case "outputs":
      return [];
    default:
      return [...catalogue.settingsOf(section).map(offer("setting")), ...(section === "pack" ? FIGURES : [])];
  }
}

/** Figures in which a board keeps two settings at once. */
const FIGURES: readonly Offer[] = [
  {
    label: "divider-ratio",
    kind: "setting",
    detail: "(top + bottom) / bottom of the divider",
    group: 3,
    words: ["voltage scale"],
    doc: {
      of: "text",
      text: "Read, it gives `divider-top` and `divider-bottom`: with the craft's bottom, else with 1 kohm.",
    },
  },
  {
    label: "shunt-scale",
    kind: "setting",
    detail: "shunt × gain, in mohm",
    group: 3,
    words: ["current scale"],
    doc: { of: "text", text: "Read, it gives `shunt` and `shunt-gain`: with the craft's gain, else with 1." },
  },
];

/** A slot may be the name itself, and so may a part of one. */
function nameSlots(slots: readonly LeftSlot[]): Offer[] {
  return [
    ...slots
      .filter(({ isUsed }) => !isUsed)
      .map(
        ({ name, detail }): Offer => ({
          label: `{${name}}`,
          kind: "field",
          detail: `the name: ${detail}`,
          text: `{${name}} `,
          group: 3,
        }),
      ),
    { label: "unset", kind: "keyword", detail: "the line says that nothing is set", group: 4 },
  ];
}

/** The value of a name with the first slots in it; null where there is no slot, so that the name alone is offered. */
function valueSnippet(
  { workspace: { catalogue }, section }: InDialect,
  name: string,
  free: readonly LeftSlot[],
): string | null {
  const spec = catalogue.section(section)!;
  const [first, second, third] = free.map((slot) => (slot.parts.length > 0 ? null : slot.name));
  if (spec.holds === "modes")
    return first && second && third ? `when {${first}\\} in {${second}\\} to {${third}\\}` : null;
  if (spec.holds === "places" && catalogue.element(name)) {
    const packed = free.find(({ parts }) => parts.length > 1);
    if (packed)
      return `at {${packed.name}.${packed.parts.includes("column") ? "column" : packed.parts[0]}\\}, {${packed.name}.${packed.parts.includes("row") ? "row" : packed.parts[1]}\\}`;
    return first && second ? `at {${first}\\}, {${second}\\}` : null;
  }
  const setting = catalogue.setting(section, name);
  const type = setting?.types[0];
  if (!first || !type) return first ? `{${first}\\}` : null;
  return typeSnippet(type, free);
}

function typeSnippet(type: ValueType, free: readonly LeftSlot[]): string {
  const slot = (i: number) => `{\${${i + 1}:${free[i]?.name ?? "v"}}\\}`;
  switch (type.is) {
    case "fields": {
      const shown = type.fields
        .filter((field) => field.required || type.fields.length <= free.length)
        .slice(0, Math.max(1, free.length));
      return (shown.length > 0 ? shown : type.fields.slice(0, Math.max(1, free.length)))
        .map((field, i) => `${field.name} ${slot(i)}${unitOf(field.types[0]!, free[i])}`)
        .join(" ");
    }
    case "text":
      return `"${slot(0)}"`;
    case "range":
      return free.length > 1 ? `${slot(0)} to ${slot(1)}${unitOf(type.of, free[1])}` : slot(0);
    default:
      return `${slot(0)}${unitOf(type, free[0])}`;
  }
}

/** The unit behind a slot; none where its code has one, as most numbers of boards have. */
function unitOf(type: SimpleType, slot: LeftSlot | undefined): string {
  return type.is === "quantity" && type.unit !== "" && !slot?.detail.startsWith("by ") ? ` ${type.unit}` : "";
}

/** What may stand in a value: slots, words, fields, units. */
function offerValue(at: InDialect, name: string, rest: string, slots: readonly LeftSlot[]): Offer[] {
  const { catalogue } = at.workspace;
  const spec = catalogue.section(at.section)!;
  const settings = settingsNamed(at, name);
  const first = rest === "" || /^\S*$/.test(rest);
  const slotOffers = slots.flatMap(({ name: slot, parts, isUsed, detail }): Offer[] =>
    (parts.length > 0 ? parts.map((part) => `{${slot}.${part}}`) : [`{${slot}}`]).map((label) => ({
      label,
      kind: "field",
      detail,
      group: isUsed ? 4 : 1,
    })),
  );
  const word = (...words: string[]) =>
    words.flatMap((named) =>
      RIGHT_WORDS.filter((each) => each.word === named).map((each) =>
        wordOffer(each, named === "unset" ? 4 : named === "curve" ? 3 : 0),
      ),
    );
  if (spec.holds === "modes" || spec.holds === "outputs") {
    if (first) return word("when", "unset");
    const condition = rest.replace(/^when\s*/, "");
    if (/^\S*$/.test(condition))
      return [...slotOffers, ...modes(at), { label: "always", kind: "keyword", detail: "in every state", group: 3 }];
    return /^\S+\s+\S*$/.test(condition)
      ? keywords(["in"])
      : /\sin\s+\S+\s+\S*$/.test(condition)
        ? keywords(["to", "us"])
        : [...slotOffers, ...keywords(["to", "and"])];
  }
  if (spec.holds === "follows") return first ? word("follows") : [...slotOffers, ...keywords(["from", "to"])];
  if (spec.holds === "places" && first && (name.includes("{") || catalogue.element(name)))
    return [...word("at", "unset"), ...slotOffers];
  const units = /[}\d]\s+[A-Za-z/%µ]*$/.test(rest)
    ? unitsOf(settings).map((unit, i) => unitOffer(unit, Math.min(2 + i, 3)))
    : [];
  const fields = fieldsOf(settings, rest);
  const choices = first
    ? settings
        .flatMap(({ types }) => types.filter(({ is }) => is !== "fields").flatMap(choicesOf))
        .map((each) => ({ ...each, group: 3 }))
    : [];
  const isRate = spec.name.startsWith("rates") && first;
  return [
    ...units,
    ...(units.length > 0 ? [] : slotOffers),
    ...fields,
    ...choices,
    ...word(...(first ? ["unset"] : []), ...(isRate ? ["curve"] : []), ...(/^curve\s/.test(rest) ? ["stick"] : [])),
  ];
}

function keywords(labels: readonly string[]): Offer[] {
  return labels.map((label): Offer => ({ label, kind: label === "us" ? "unit" : "keyword", group: 2 }));
}

function modes({ workspace: { catalogue } }: InDialect): Offer[] {
  return catalogue.modes.map(
    ({ name, what }): Offer => ({
      label: name,
      kind: "mode",
      detail: what,
      group: 4,
      doc: { of: "name", section: "modes", name },
    }),
  );
}

/** The settings that a name may mean: a slot in it leaves several. */
function settingsNamed({ workspace: { catalogue }, section }: InDialect, name: string): readonly SettingSpec[] {
  const all = catalogue.settingsOf(section);
  if (!name.includes("{")) return all.filter((each) => each.name === name);
  const [begin = ""] = name.split("{");
  return all.filter((each) => each.name.startsWith(begin));
}

function unitsOf(settings: readonly SettingSpec[]): string[] {
  const simple = settings.flatMap(({ types }) =>
    types.flatMap((type) => (type.is === "fields" ? type.fields.flatMap((field) => field.types) : [type])),
  );
  const units = simple.flatMap((type) => {
    const of = type.is === "range" || type.is === "list" ? type.of : type;
    return of.is === "quantity" && of.unit !== "" ? unitsLike(of.unit) : [];
  });
  return [...new Set(units)];
}

function fieldsOf(settings: readonly SettingSpec[], rest: string): Offer[] {
  const said = new Set(rest.split(/\s+/));
  const names = new Map<string, string>();
  for (const { types } of settings)
    for (const type of types)
      if (type.is === "fields")
        for (const field of type.fields) if (!said.has(field.name)) names.set(field.name, field.what);
  return [...names].map(
    ([label, detail]): Offer => ({ label, kind: "field", detail, text: `${label} `, group: 2, retrigger: true }),
  );
}
