/** A craft that records what it is asked for. */
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { baseOf, type Craft } from "../../../shared/model/craft.ts";
import { copyOf } from "../../../shared/model/listened-craft.ts";
import type { LookedAtKind } from "../../../shared/rules/engine/rule.ts";

/** Called with the kind and the name of each thing that is asked for: by its name, or met in going through all. */
export type Listener = (kind: LookedAtKind, name: string, how: "by name" | "in passing") => void;

/** The same craft with an empty memory, so that nothing that was computed before is taken from there unheard. */
export function recordedCraft(craft: Craft, catalogue: Catalogue, listen: Listener): Craft {
  const titles = new Set([...catalogue.sections.map(({ name }) => name), ...craft.settings.keys()]);
  const bySection = new Map(
    [...titles].map((title) => {
      // Of a second set the name in the first stands for both.
      const section = catalogue.section(baseOf(title))?.like ?? baseOf(title);
      const recorded = recordedMap(craft.settings.get(title) ?? new Map(), (name, how) =>
        listen("settings", `${section}.${name}`, how),
      );
      return [title, recorded] as const;
    }),
  );
  const placed: MapListener = (name, how) => listen("elements", name, how);
  return {
    ...copyOf(craft),
    memo: new Map(),
    settings: recordedSections(craft.settings, bySection),
    modes: recordedMap(craft.modes, (name, how) => listen("modes", name, how)),
    osd: recordedMap(craft.osd, placed),
    osdSecond: recordedMap(craft.osdSecond, placed),
  };
}

type Settings = Craft["settings"];
type MapListener = (name: string, how: "by name" | "in passing") => void;

/** Also a section that nobody wrote tells what it is asked for; going through all sections meets those written. */
function recordedSections(written: Settings, bySection: Settings): Settings {
  return new Proxy(written, {
    get(target, property) {
      if (property === "get") return (title: string) => bySection.get(title);
      if (property === "values" || property === "entries" || property === Symbol.iterator) {
        const met = new Map([...bySection].filter(([title]) => target.has(title)));
        return () => (property === "values" ? met.values() : met.entries());
      }
      return memberOf(target, property);
    },
  });
}

function recordedMap<V>(map: ReadonlyMap<string, V>, listen: MapListener): ReadonlyMap<string, V> {
  return new Proxy(map, {
    get(target, property) {
      if (property === "get" || property === "has")
        return (name: string) => {
          listen(name, "by name");
          return property === "get" ? target.get(name) : target.has(name);
        };
      if (property !== "size") for (const name of target.keys()) listen(name, "in passing");
      return memberOf(target, property);
    },
  });
}

function memberOf<T extends object>(target: T, property: string | symbol): unknown {
  const member: unknown = Reflect.get(target, property, target);
  return typeof member === "function" ? member.bind(target) : member;
}
