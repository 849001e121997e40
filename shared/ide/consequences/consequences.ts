/**
 * What follows from a value on one craft, in sentences: `consequencesOf` for an entry. Reckoned by
 * `shared/numbers` from what the craft's files say, and from the catalogue's defaults; a sentence that
 * rests on a default names it, unless one before it did.
 */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { FieldsType } from "../../catalogue/types.ts";
import { listed } from "../../draw/words.ts";
import { baseOf, type Craft, type Setting, type Source } from "../../model/craft.ts";
import type { Entry } from "../../model/script.ts";
import { fieldOf, saidIn } from "../../numbers/read.ts";
import { filterTellers, smoothingTellers } from "./consequences-filters.ts";
import {
  failsafeTellers,
  followTeller,
  lossTeller,
  navigationTellers,
  rateTellers,
  safetyTellers,
} from "./consequences-flight.ts";
import { benchTellers, meterTellers } from "./consequences-meters.ts";
import { frameTellers, motorTellers, sensorTellers } from "./consequences-motors.ts";
import { osdTellers, placeTeller } from "./consequences-osd.ts";
import { packTellers } from "./consequences-pack.ts";
import {
  cameraTellers,
  linkTellers,
  navigationRadioTellers,
  recorderTellers,
  transmitterTellers,
  videoTellers,
} from "./consequences-radio.ts";
import type { Consequence, Subject, Teller, Tellers } from "./consequences-words.ts";

export type { Consequence } from "./consequences-words.ts";

const tellers: Readonly<Record<string, Tellers>> = {
  pack: { ...packTellers, ...meterTellers, ...smoothingTellers },
  frame: frameTellers,
  motors: motorTellers,
  sensors: sensorTellers,
  filters: filterTellers,
  rates: rateTellers,
  "rates-second": rateTellers,
  safety: safetyTellers,
  failsafe: failsafeTellers,
  navigation: { ...navigationTellers, ...navigationRadioTellers },
  link: {
    ...linkTellers,
    "lost-after": (subject) => [...(linkTellers["lost-after"]?.(subject) ?? []), ...lossTeller(subject)],
  },
  video: videoTellers,
  transmitter: transmitterTellers,
  camera: cameraTellers,
  recorder: recorderTellers,
  osd: osdTellers,
  bench: benchTellers,
};

/** What an entry is about; `line` and `file` pick one of several lines of a repeatable setting. */
export type Asked = Pick<Entry, "kind" | "section" | "name"> & Partial<Source>;

/** The sentences that follow from an entry's value as the craft has it; none where it has none. */
export function consequencesOf(craft: Craft, catalogue: Catalogue, asked: Asked): readonly Consequence[] {
  const tell = tellerOf(asked);
  const found = tell && standing(craft, asked);
  if (!tell || !found) return [];
  const subject: Subject = { craft, catalogue, section: asked.section, name: asked.name, ...found };
  const told = new Set<string>();
  return tell(subject).map((each) => {
    const rests = suppositions(craft, catalogue, each.from);
    if (told.has(rests)) return each;
    told.add(rests);
    return { ...each, text: each.text + rests };
  });
}

function tellerOf({ kind, section, name }: Asked): Teller | undefined {
  if (kind === "element") return placeTeller;
  if (kind === "follows") return followTeller;
  return kind === "setting" && Object.hasOwn(tellers, baseOf(section))
    ? own(tellers[baseOf(section)]!, name)
    : undefined;
}

function own(table: Tellers, name: string): Teller | undefined {
  return Object.hasOwn(table, name) ? table[name] : undefined;
}

/** The value that counts and its line; of a list of lines the one asked about, else the last. */
function standing(craft: Craft, { kind, section, name, file, line }: Asked): Pick<Subject, "value" | "source"> | null {
  const said: Pick<Setting, "value" | "source"> | null | undefined =
    kind === "element"
      ? (section === "osd-second" ? craft.osdSecond : craft.osd).get(name)
      : kind === "follows"
        ? craft.adjust.get(name)
        : settled(saidIn(craft, section, name), file, line);
  return said?.value ? { value: said.value, source: said.source } : null;
}

function settled(setting: Setting | null, file?: string, line?: number): Pick<Setting, "value" | "source"> | null {
  if (!setting?.items) return setting;
  const items = setting.items.filter(({ value }) => value !== null);
  return items.find(({ source }) => source.file === file && source.line === line) ?? items.at(-1) ?? null;
}

/** The defaults on which a sentence rests: of settings and fields that nobody said. */
function suppositions(craft: Craft, catalogue: Catalogue, from: readonly string[]): string {
  const supposed = new Set<string>();
  for (const path of from) {
    const text = supposedOf(craft, catalogue, path);
    if (text !== null) supposed.add(text);
  }
  return supposed.size === 0 ? "" : ` (with ${listed([...supposed])}, as the catalogue supposes)`;
}

function supposedOf(craft: Craft, catalogue: Catalogue, path: string): string | null {
  const dot = path.lastIndexOf(".");
  const section = path.slice(0, dot);
  const [name = "", field] = path.slice(dot + 1).split(":");
  const said = saidIn(craft, section, name);
  const spec = catalogue.setting(baseOf(section), name);
  if (field === undefined) return !said && spec?.default !== undefined ? `${name} ${spec.default}` : null;
  // A repeatable setting has no fields of its own: whoever asks has looked at the line.
  if (fieldOf(said?.items ? null : (said?.value ?? null), field)) return null;
  if (section === "rates-second" && fieldOf(saidIn(craft, "rates", name)?.value ?? null, field)) return null;
  const fields = spec?.types.find((type): type is FieldsType => type.is === "fields")?.fields;
  const usual = fields?.find((each) => each.name === field)?.default;
  return usual === undefined ? null : `${field} ${usual}`;
}
