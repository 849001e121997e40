/** Groups of names that several rules look at. */
import type { NameGroup } from "../engine/rule.ts";

/** `ports.port1` and the other ports. */
export const PORTS: NameGroup = {
  words: "every port",
  names: (catalogue) =>
    catalogue.settingsOf("ports").flatMap(({ name }) => (/^port\d+$/.test(name) ? `ports.${name}` : [])),
};

export const EVERY_MODE: NameGroup = {
  words: "every mode",
  names: ({ modes }) => modes.map(({ name }) => name),
};

export const FLIGHT_MODES: NameGroup = {
  words: "every mode that does something only in flight",
  names: ({ modes }) => modes.flatMap(({ name, inFlight }) => (inFlight ? name : [])),
};

/** Modes that take precedence over others, and those others. */
export const RANKED_MODES: NameGroup = {
  words: "every mode that goes before another, or yields to one",
  names: ({ modeRelations }) => modeRelations.precedence.flatMap(({ over, under }) => [over, ...under]),
};

export const EVERY_ELEMENT: NameGroup = {
  words: "every element",
  names: ({ elements }) => elements.map(({ name }) => name),
};

/** Settings whose text an element shows, which determine its width. */
export const SHOWN_TEXTS: NameGroup = {
  words: "every setting whose text an element shows",
  names: ({ elements }) => elements.flatMap(({ textOf }) => (textOf?.includes(".") ? textOf : [])),
};
