import { expect, test } from "vitest";
import { elements } from "../../shared/catalogue/elements.ts";
import { readings } from "../../shared/catalogue/readings.ts";
import { elementSchema, readingSchema } from "../../shared/catalogue/schema.ts";

const units = new Map(readings.map((reading) => [reading.name, reading.unit]));
const texts = elements.filter((element) => element.drawn === "text");
const figures = elements.filter((element) => element.drawn !== "text");

/** The `{…}` parts of a template: name, decimals (undefined if none are said), clock. */
function parts(template: string): { name: string; decimals?: string; clock: boolean }[] {
  return [...template.matchAll(/\{([^}]*)\}/g)].map(([, inside]) => {
    const match = /^([a-z][a-z0-9-]*)(?:\.(\d)|(:clock))?$/.exec(inside ?? "");
    if (!match) throw new Error(`not a template: ${template}`);
    return { name: match[1] ?? "", decimals: match[2], clock: match[3] !== undefined };
  });
}

/** What a template may print, as a pattern: numbers with exactly the decimals that it asks for. */
function printable(template: string): RegExp {
  const literal = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  const pattern = template.split(/(\{[^}]*\})/).map((piece) => {
    const [part] = parts(piece);
    if (!part) return literal(piece);
    if (part.clock) return "\\d+:[0-5]\\d";
    if (part.decimals) return `-?\\d+\\.\\d{${part.decimals}}`;
    // Without a unit it may be words as well as a bare number.
    return units.get(part.name) === "" ? ".+" : "-?\\d+";
  });
  return new RegExp(`^${pattern.join("")}$`);
}

test("there are at least 45 elements, each with a name of its own", () => {
  expect(elements.length).toBeGreaterThanOrEqual(45);
  expect(new Set(elements.map((element) => element.name)).size).toBe(elements.length);
});

test("every element and every reading has the catalogue's shape", () => {
  for (const element of elements) expect(elementSchema.parse(element)).toEqual(element);
  for (const reading of readings) expect(readingSchema.parse(reading)).toEqual(reading);
  expect(units.size).toBe(readings.length);
});

test.each(elements.flatMap((e) => e.shows.map((row) => [e.name, row])))("%s shows known readings: %s", (_, row) => {
  expect(parts(row).length).toBeGreaterThan(0);
  for (const { name, clock } of parts(row)) {
    expect(units.has(name), name).toBe(true);
    if (clock) expect(["s", "min"]).toContain(units.get(name));
  }
});

test.each(texts.map((e) => [e.name, e] as const))(
  "the widest text of %s is one that its template can print",
  (_, e) => {
    expect(e.shows.length).toBeGreaterThan(0);
    expect(e.widest).toHaveLength(e.shows.length);
    e.shows.forEach((row, i) => {
      expect(e.widest[i]).toMatch(printable(row));
    });
  },
);

test("a figure shows no text, and its cells form a rectangle", () => {
  expect(figures.length).toBeGreaterThan(0);
  for (const { name, shows, widest } of figures) {
    expect(shows, name).toEqual([]);
    for (const row of widest) expect(row, name).toBe("#".repeat(widest[0]?.length ?? 0));
  }
});

// MAX7456 datasheet, 19-0576 Rev 0, 8/07, p. 10: a character has 12 by 18 pixels.
test("the square of a stick is one: 6 cells wide and 4 high", () => {
  for (const { widest, drawn } of elements)
    if (drawn === "trace") expect([widest[0]!.length * 12, widest.length * 18]).toEqual([72, 72]);
});

// MAX7456 datasheet, 19-0576 Rev 0, 8/07, p. 10: 30 columns, 13 rows in an NTSC picture.
test("every element fits the narrowest and lowest grid", () => {
  for (const { name, widest } of elements) {
    expect(widest.length, name).toBeLessThanOrEqual(13);
    for (const row of widest) expect(row.length, name).toBeLessThanOrEqual(30);
  }
});

test("the widest text of the pack's volts is that of eight lipo cells at 4.2 V", () => {
  expect(elements.find(({ name }) => name === "pack-volts")?.widest).toEqual(["33.6V"]);
});

test("every essential role of a layout has elements", () => {
  const byRole = (role: string) => elements.filter((e) => e.role === role).map(({ name }) => name);
  expect(byRole("voltage")).toEqual(["pack-volts", "cell-volts"]);
  expect(byRole("link")).toEqual(["link-quality", "signal"]);
  expect(byRole("alerts")).toEqual(["alerts"]);
  expect(byRole("flight-time")).toEqual(["flight-time"]);
});

test("only these may stand in the middle, and only these share cells", () => {
  const names = (key: "centre" | "overlapsNothing") => elements.filter((e) => e[key]).map(({ name }) => name);
  expect(names("centre").sort()).toEqual(["alerts", "horizon-line", "message", "sight"]);
  expect(names("overlapsNothing").sort()).toEqual(["alerts", "horizon-line", "sight"]);
});
