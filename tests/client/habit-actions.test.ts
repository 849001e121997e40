/** On which lines a change on every craft is offered, and of which mode. */
import { expect, test, vi } from "vitest";

vi.mock("vscode", () => import("./fake-editor.ts"));
const { modeAt } = await import("../../client/src/habit-actions.ts");

const text = `craft "Jug"

modes
  # when the mode is on
  arm     when TL is down
\tfinder  when PB is held
  drop    level
pack "when"
  cells  6
outputs
  lamp  when FR is near
osd
  when at left+2, top+1
`;
const lines = text.split("\n");
const document = { lineAt: (line: number) => ({ text: lines[line]! }) } as never;

test("lines of modes and outputs, and no others", () => {
  expect(lines.map((_, line) => modeAt(document, line))).toEqual([
    ...[null, null, null, null],
    ...["arm", "finder", null, null, null],
    ...[null, "outputs.lamp", null, null, null],
  ]);
});
