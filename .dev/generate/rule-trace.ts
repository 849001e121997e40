/** A craft that listens to what it is asked for. */
import type { Catalogue } from "../../shared/catalogue/catalogue.ts";
import type { Craft } from "../../shared/model/craft.ts";

/** The craft, which tells what it is asked for: settings as SECTION.NAME, modes and elements by name. */
export function traced(craft: Craft, catalogue: Catalogue, note: (name: string) => void): Craft {
  const titles = new Set([...catalogue.sections.map(({ name }) => name), ...craft.settings.keys()]);
  const heard = new Map(
    [...titles].map((title) => {
      const section = title.split("/")[0]!;
      return [title, listened(craft.settings.get(title) ?? new Map(), (name) => note(`${section}.${name}`))];
    }),
  );
  // Also a section that nobody wrote tells what it is asked for; who walks over all sections sees those written.
  const settings = new Proxy(craft.settings, {
    get(target, property) {
      if (property === "get") return (title: string) => heard.get(title);
      if (property === "values" || property === "entries" || property === Symbol.iterator) {
        const written = new Map([...heard].filter(([title]) => target.has(title)));
        return () => (property === "values" ? written.values() : written.entries());
      }
      const member: unknown = Reflect.get(target, property, target);
      return typeof member === "function" ? member.bind(target) : member;
    },
  });
  return {
    ...craft,
    settings,
    modes: listened(craft.modes, note),
    osd: listened(craft.osd, note),
    osdSecond: listened(craft.osdSecond, note),
  };
}

/** A map that tells which keys it is asked for. Who walks over it sees every setting in it. */
function listened<V>(map: ReadonlyMap<string, V>, note: (key: string) => void): ReadonlyMap<string, V> {
  const walked = () => {
    for (const [key, value] of map) if (isSetting(value)) note(key);
  };
  return new Proxy(map, {
    get(target, property) {
      if (property === "get" || property === "has")
        return (key: string) => {
          if (property === "get" || map.has(key)) note(key);
          return property === "get" ? target.get(key) : target.has(key);
        };
      if (property !== "size") walked();
      const member: unknown = Reflect.get(target, property, target);
      return typeof member === "function" ? member.bind(target) : member;
    },
  });
}

function isSetting(value: unknown): boolean {
  return typeof value === "object" && value !== null && "fieldSources" in value;
}
