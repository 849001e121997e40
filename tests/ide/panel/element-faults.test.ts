/** Every element that needs something, on a craft that certainly lacks it: what the panel says of it, before it is added and after. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { Having } from "../../../shared/catalogue/specs.ts";
import { fillIn, repair } from "../../../shared/ide/edits/insertions.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { WayOn } from "../../../shared/protocol/ways.ts";
import { edited } from "../edits/scripts-edited.ts";

const catalogue = makeCatalogue();
const core = makeCore(catalogue);
const FILE = "jug.fettle";

/** The lines that say of something that the craft does not have it: “section NAME VALUE”. */
function denied({ port, setting, is, not }: Having): string {
  if (port !== undefined) return "ports port1 receiver";
  const [section, name] = setting!.split(".") as [string, string];
  if (not !== undefined) return `${section} ${name} ${not}`;
  const types = catalogue.setting(section, name)!.types;
  const other = types.flatMap((type) =>
    type.is === "choice" ? type.choices.map(({ word }) => word).filter((word) => word !== is) : [],
  );
  return `${section} ${name} ${other[0] ?? (is === "yes" ? "no" : "yes")}`;
}

function craftOf(lines: readonly string[]): string {
  const sections = new Map<string, string[]>();
  for (const line of new Set(lines)) {
    const [section = "", ...rest] = line.split(" ");
    sections.set(section, [...(sections.get(section) ?? []), `  ${rest.join(" ")}`]);
  }
  return ['craft "Jug"', ...[...sections].flatMap(([name, entries]) => ["", name, ...entries]), ""].join("\n");
}

const inNeed = catalogue.elements.flatMap((element) =>
  (element.needs ?? [])
    .filter((need) => [need, ...(need.or ?? [])].every(({ port, setting }) => port ?? setting))
    .map((need, index) => {
      const lines = [need, ...(need.or ?? [])].map(denied);
      return { name: element.name, index, lines };
    }),
);

function panel(text: string) {
  return panelOf(core.at(memoryFiles({ [FILE]: text })), FILE, 1);
}
const faultsOf = (text: string, name: string) =>
  panel(text).goggles!.elements.find((element) => element.name === name)?.faults ?? [];

/** The text after a button was pressed; null where it only leads to a line. */
function pressed(text: string, { action }: WayOn): string | null {
  const workspace = core.at(memoryFiles({ [FILE]: text }));
  if (action.name !== "repair" && action.name !== "fill-in") return null;
  const answer = action.name === "repair" ? repair(workspace, FILE, action) : fillIn(workspace, FILE, action.what);
  if (answer.kind === "refused") throw new Error(answer.message);
  return edited(text, answer.files[0]!.edits);
}

test("there are more than thirty needs of elements", () => {
  expect(inNeed.length).toBeGreaterThan(30);
});

describe("what an element lacks is said at it, with a button; and before it is added", () => {
  test.each(inNeed)("$name, need $index", ({ name, lines }) => {
    const without = craftOf([...lines, "osd grid 60 x 22"]);
    const addable = panel(without).goggles!.addable.find((each) => each.name === name)!;
    expect(addable.lacks.length).toBeGreaterThan(0);
    const text = craftOf([...lines, "osd grid 60 x 22", `osd ${name} at left+2, top+1`]);
    const faults = faultsOf(text, name).filter(({ code }) => code === "setting-needs" || code === "port-missing");
    expect(faults.length).toBeGreaterThan(0);
    for (const { message, ways } of faults) {
      expect(message).toContain(`${name} needs`);
      expect(ways.length, message).toBeGreaterThan(0);
      for (const way of ways) {
        const after = pressed(text, way);
        if (after !== null) expect(faultsOf(after, name).map((each) => each.message)).not.toContain(message);
        else expect(way.action.name).toBe("go");
      }
    }
  });
});

test("of a craft that says nothing of its parts the needs are named, and none is called missing", () => {
  const { addable } = panel('craft "Jug"\nosd\n  grid 60 x 22\n').goggles!;
  // Only a section is known to be missing where nothing is said.
  const lacking = addable.filter(({ lacks }) => lacks.length > 0).map(({ name }) => name);
  expect(lacking).toEqual(["adjusting"]);
  const [arrow] = addable.filter(({ name }) => name === "home-arrow");
  expect(arrow).toMatchObject({ asks: ["a satellite receiver on a port"] });
  expect(addable.find(({ name }) => name === "flight-time")).toMatchObject({ asks: [] });
});

test("a spare port is named; else the pilot says which it is", () => {
  const labels = (ports: string) =>
    faultsOf(
      craftOf(["osd grid pal", "osd satellites at 2, 2", ...ports.split(", ").map((port) => `ports ${port}`)]),
      "satellites",
    )
      .flatMap(({ ways }) => ways)
      .map(({ label }) => label);
  expect(labels("port1 receiver, port4 spare")).toEqual(["Say that port4 serves gps"]);
  expect(labels("port1 receiver")).toEqual(["Say which port serves gps…"]);
  expect(labels([1, 2, 3, 4, 5, 6, 7, 8].map((n) => `port${n} bench`).join(", "))).toEqual(["Show “ports”"]);
});

test("one finding about several elements stands at each of them; repairs of other findings come too", () => {
  const text = craftOf([
    "ports port1 receiver",
    "video signal analogue",
    "osd grid pal",
    "osd satellites at 2, 2",
    "osd speed at 2, 4",
    "osd amps at left, top+6",
  ]);
  expect(faultsOf(text, "satellites")).toEqual(faultsOf(text, "speed"));
  const [unsafe] = faultsOf(text, "amps");
  expect(unsafe).toMatchObject({
    code: "osd-unsafe-area",
    severity: "hint",
    ways: [{ label: "Move amps to left+2, top+6" }],
  });
  expect(pressed(text, unsafe!.ways[0]!)).toContain("amps at left+2, top+6");
});

test("a repair that is offered no more is refused", () => {
  const workspace = core.at(memoryFiles({ [FILE]: 'craft "Jug"\n' }));
  const made = { at: { file: FILE, line: 3 }, code: "osd-unsafe-area", title: "Move amps to left+2, top+6" };
  expect(repair(workspace, FILE, made)).toMatchObject({ kind: "refused" });
  expect(fillIn(workspace, FILE, "port nothing")).toMatchObject({ kind: "refused" });
});
