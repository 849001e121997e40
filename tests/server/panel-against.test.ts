/** The panel's model with another side of a comparison, over the wire: every line leads to its own side. */
import { afterEach, expect, test } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import {
  OTHER_SCHEME,
  type OtherSide,
  REVISION_REQUEST,
  type RevisionParams,
  type RevisionResult,
} from "../../shared/protocol/compare.ts";
import { PANEL_REQUEST, type PanelModel, type PanelParams } from "../../shared/protocol/panel.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const wheel = `handset "Wheel"
controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
`;
const craft = (name: string, arm: string, place: string) =>
  `craft "${name}"\nuse "../handsets/wheel.fettle"\nmodes\n  arm when ${arm} is down\nosd\n  grid 30 x 16\n  pack-volts at ${place}\n`;
const now = {
  "/shed/handsets/wheel.fettle": wheel,
  "/shed/layers/high.fettle": 'layer "High"\nosd\n  pack-volts at 2, 2\n',
  "/shed/craft/jug.fettle": craft("Jug", "TL", "2, 14"),
  "/shed/craft/mug.fettle": craft("Mug", "TR", "5, 14"),
};
const committed: Readonly<Record<string, string>> = {
  ...now,
  "/shed/craft/jug.fettle": craft("Jug", "TR", "2, 10"),
};

let session: Session;
afterEach(() => session?.end());

const uri = (path: string) => asUri(`file:///shed/${path}`);

async function drawn(against: OtherSide | undefined, more: Partial<PanelParams> = {}): Promise<PanelModel> {
  session = await startSession(filesInMemory({ ...now }), PULLING, undefined, undefined, (client) => {
    client.onRequest<RevisionResult, void>(REVISION_REQUEST, (params: RevisionParams) => {
      const text = params.revision === "HEAD" ? committed[params.uri.replace("file://", "")] : undefined;
      return text === undefined ? { kind: "missing" } : { kind: "text", text };
    });
  });
  const params: PanelParams = { uri: uri("craft/jug.fettle"), ...(against && { against }), ...more };
  return session.client.sendRequest<PanelModel>(PANEL_REQUEST, params);
}

/** Where the first element and the first mode there lead, and what is marked. */
function told({ against }: PanelModel) {
  if (against?.kind !== "pictures") return against;
  const { goggles, switches, name } = against;
  return {
    name,
    marks: goggles?.marks.map((mark) => mark.name),
    element: goggles?.picture.elements[0]?.at,
    modes: switches?.modes.map(({ words }) => words),
    mode: switches?.modes[0]?.there?.lines[0],
    control: switches?.controls[0]?.there?.at.file,
  };
}

test("another craft of the workspace", async () => {
  expect(told(await drawn({ kind: "file", uri: uri("craft/mug.fettle") }))).toEqual({
    name: "Mug",
    marks: ["pack-volts"],
    element: { file: uri("craft/mug.fettle"), line: 6 },
    modes: ["arm moves from TL down to TR down"],
    mode: { file: uri("craft/mug.fettle"), line: 3 },
    control: uri("handsets/wheel.fettle"),
  });
});

test("the same craft at a revision: its lines are those of a read-only document, and so are those of its handset", async () => {
  const { name, element, mode, control } = told(
    await drawn({ kind: "revision", uri: uri("craft/jug.fettle"), revision: "HEAD" }),
  ) as {
    name: string;
    element: { file: string; line: number };
    mode: { file: string; line: number };
    control: string;
  };
  expect(name).toBe("Jug at HEAD");
  for (const file of [element.file, mode.file, control]) expect(file).toMatch(new RegExp(`^${OTHER_SCHEME}:`));
  expect([element.line, mode.line]).toEqual([6, 3]);
});

test("lines that lie nowhere, and a layer, are laid over the craft", async () => {
  const text = "osd\n  pack-volts at 9, 9\n";
  const pasted = told(await drawn({ kind: "text", text, name: "the clipboard" }));
  expect(pasted).toMatchObject({ name: "Jug with the clipboard laid over it", marks: ["pack-volts"], modes: [] });
  const layer = told(await drawn({ kind: "file", uri: uri("layers/high.fettle") }));
  expect(layer).toMatchObject({
    name: "Jug with the layer High laid over it",
    marks: ["pack-volts"],
    element: { file: uri("layers/high.fettle"), line: 2 },
  });
});

test.each([
  [{ kind: "file", uri: uri("craft/gone.fettle") }, /gone\.fettle/],
  [{ kind: "revision", uri: uri("craft/jug.fettle"), revision: "nowhere" }, /nowhere/],
  [{ kind: "text", text: "", name: "the clipboard" }, /the clipboard/],
] satisfies [OtherSide, RegExp][])(
  "what cannot be read is said in a sentence, and the craft is drawn: %j",
  async (side, why) => {
    const model = await drawn(side);
    expect(model.goggles).not.toBeNull();
    expect(model.against).toEqual({ kind: "none", message: expect.stringMatching(why) });
  },
);

test("nothing is there where nothing is compared", async () => {
  expect("against" in (await drawn(undefined))).toBe(false);
});
