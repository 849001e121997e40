import { expect, test } from "vitest";
import { drawGoggles } from "../../shared/draw/goggles.ts";
import type { SceneNode } from "../../shared/draw/scene.ts";
import { elementInWords } from "../../shared/draw/words.ts";
import { element, picture } from "./samples.ts";

const fault = { code: "port-missing", severity: "error", message: "It needs a port.", marked: true, ways: [] } as const;

function marksIn(scene: SceneNode): SceneNode[] {
  const own = scene.attributes.class === "fault" ? [scene] : [];
  return [...own, ...scene.children.flatMap((child) => (typeof child === "string" ? [] : marksIn(child)))];
}

test("a marked element has a sign with the reason, and no other has", () => {
  const taste = { ...fault, code: "osd-unsafe-area", marked: false };
  const scene = drawGoggles(
    picture([
      element("speed", 2, 2, "40km/h", { faults: [fault] }),
      element("amps", 2, 4, "12.0A", { faults: [taste] }),
      element("mode", 2, 6, "LEVEL"),
    ]),
  );
  const marks = marksIn(scene);
  expect(marks).toHaveLength(1);
  expect(marks[0]!.children[0]).toMatchObject({ tag: "title", children: ["It needs a port."] });
});

test("the sign stays inside the picture, in whatever corner the element stands", () => {
  for (const [column, row] of [
    [0, 0],
    [26, 0],
    [26, 15],
    [40, -3],
  ] as const) {
    const [mark] = marksIn(drawGoggles(picture([element("amps", column, row, "9.9A", { faults: [fault] })])));
    const ground = mark!.children[1] as SceneNode;
    const { x, y, width } = ground.attributes as Record<string, number>;
    expect(x! >= 0 && x! + width! <= 720, `${column} ${row}`).toBe(true);
    expect(y).toBeGreaterThanOrEqual(0);
  }
});

test("in words, the reason stands behind where it is", () => {
  expect(elementInWords(element("amps", 1, 2, "9.9A", { faults: [fault] }))).toMatch(
    /\(column 1, row 2\); It needs a port\.$/,
  );
});
