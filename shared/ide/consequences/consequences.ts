/**
 * The consequences of a value on one craft, in sentences. They are computed by `shared/numbers` from the
 * craft's files and the catalogue's defaults; a sentence that uses a default names it, unless an earlier
 * sentence did.
 */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { FieldsType } from "../../catalogue/specs.ts";
import { baseOf, type Craft, type Setting, type Source } from "../../model/craft.ts";
import type { Entry } from "../../model/script.ts";
import { fieldOf, settingIn } from "../../numbers/values.ts";
import { joinWithAnd } from "../../text/list.ts";
import { filterProviders, smoothingProviders } from "./filters.ts";
import {
  failsafeProviders,
  followProvider,
  lossProvider,
  navigationProviders,
  rateProviders,
  safetyProviders,
} from "./flight.ts";
import { likelyHover } from "./hover.ts";
import { benchProviders, meterProviders } from "./meters.ts";
import { frameProviders, hoverStick, motorProviders, sensorProviders } from "./motors.ts";
import { osdProviders, placeProvider } from "./osd.ts";
import { packProviders } from "./pack.ts";
import {
  type Consequence,
  type ConsequenceProvider,
  type ConsequenceProviders,
  type ConsequenceSubject,
  combined,
} from "./provider.ts";
import {
  cameraProviders,
  linkProviders,
  navigationRadioProviders,
  recorderProviders,
  transmitterProviders,
  videoProviders,
} from "./radio.ts";

export type { Consequence } from "./provider.ts";

const providers: Readonly<Record<string, ConsequenceProviders>> = {
  pack: {
    ...packProviders,
    ...meterProviders,
    ...smoothingProviders,
    "hover-throttle": combined(hoverStick, likelyHover),
    "hover-current": combined(packProviders["hover-current"]!, likelyHover),
  },
  frame: { ...frameProviders, "hover-throttle": combined(hoverStick, likelyHover) },
  motors: motorProviders,
  sensors: sensorProviders,
  filters: filterProviders,
  rates: rateProviders,
  "rates-second": rateProviders,
  safety: safetyProviders,
  failsafe: failsafeProviders,
  navigation: { ...navigationProviders, ...navigationRadioProviders },
  link: {
    ...linkProviders,
    "lost-after": (subject) => [...(linkProviders["lost-after"]?.(subject) ?? []), ...lossProvider(subject)],
  },
  video: videoProviders,
  transmitter: transmitterProviders,
  camera: cameraProviders,
  recorder: recorderProviders,
  osd: osdProviders,
  bench: benchProviders,
};

/** Identifies an entry; `line` and `file` pick one of several lines of a repeatable setting. */
export type ConsequenceQuery = Pick<Entry, "kind" | "section" | "name"> & Partial<Source>;

/** The consequences of an entry's effective value on a craft; none where the craft has no value for it. */
export function consequencesOf(craft: Craft, catalogue: Catalogue, query: ConsequenceQuery): readonly Consequence[] {
  const provider = providerOf(query);
  const found = provider && effectiveValue(craft, query);
  if (!provider || !found) return [];
  const subject: ConsequenceSubject = { craft, catalogue, section: query.section, name: query.name, ...found };
  const noted = new Set<string>();
  return provider(subject).map((each) => {
    const note = defaultsUsed(craft, catalogue, each.from);
    if (noted.has(note)) return each;
    noted.add(note);
    return { ...each, text: each.text + note };
  });
}

function providerOf({ kind, section, name }: ConsequenceQuery): ConsequenceProvider | undefined {
  if (kind === "element") return placeProvider;
  if (kind === "follows") return followProvider;
  return kind === "setting" && Object.hasOwn(providers, baseOf(section))
    ? ownEntry(providers[baseOf(section)]!, name)
    : undefined;
}

function ownEntry(table: ConsequenceProviders, name: string): ConsequenceProvider | undefined {
  return Object.hasOwn(table, name) ? table[name] : undefined;
}

/** The effective value and its line; of a repeatable setting the line of the query, else the last one. */
function effectiveValue(
  craft: Craft,
  { kind, section, name, file, line }: ConsequenceQuery,
): Pick<ConsequenceSubject, "value" | "source"> | null {
  const effective: Pick<Setting, "value" | "source"> | null | undefined =
    kind === "element"
      ? (section === "osd-second" ? craft.osdSecond : craft.osd).get(name)
      : kind === "follows"
        ? craft.adjust.get(name)
        : itemOnLine(settingIn(craft, section, name), file, line);
  return effective?.value ? { value: effective.value, source: effective.source } : null;
}

function itemOnLine(setting: Setting | null, file?: string, line?: number): Pick<Setting, "value" | "source"> | null {
  if (!setting?.items) return setting;
  const items = setting.items.filter(({ value }) => value !== null);
  return items.find(({ source }) => source.file === file && source.line === line) ?? items.at(-1) ?? null;
}

/**
 * The defaults that a sentence uses, for settings and fields that no file of the craft gives; as a clause in brackets.
 */
function defaultsUsed(craft: Craft, catalogue: Catalogue, from: readonly string[]): string {
  const defaults = new Set<string>();
  for (const path of from) {
    const text = defaultUsed(craft, catalogue, path);
    if (text !== null) defaults.add(text);
  }
  return defaults.size === 0 ? "" : ` (with ${joinWithAnd([...defaults])}, as the catalogue supposes)`;
}

function defaultUsed(craft: Craft, catalogue: Catalogue, path: string): string | null {
  const dot = path.lastIndexOf(".");
  const section = path.slice(0, dot);
  const [name = "", field] = path.slice(dot + 1).split(":");
  const setting = settingIn(craft, section, name);
  const spec = catalogue.setting(baseOf(section), name);
  if (field === undefined) return !setting && spec?.default !== undefined ? `${name} ${spec.default}` : null;
  // A repeatable setting has no fields of its own: its provider has read the line of the query.
  if (fieldOf(setting?.items ? null : (setting?.value ?? null), field)) return null;
  if (section === "rates-second" && fieldOf(settingIn(craft, "rates", name)?.value ?? null, field)) return null;
  const fields = spec?.types.find((type): type is FieldsType => type.is === "fields")?.fields;
  const fieldDefault = fields?.find((each) => each.name === field)?.default;
  return fieldDefault === undefined ? null : `${field} ${fieldDefault}`;
}
