import { afterEach, expect, test } from "vitest";
import type { PanelModel } from "../../shared/protocol/panel.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const tune = 'layer "Tune"\n\nfilters\n  smooth-gyro  cut 100 Hz  order 2\n';
const jug = `craft "Jug"

use "tune ä.fettle"

pack
  cells    6
  warn-at  3.5 V/cell

sensors
  gyro-rate  8 kHz
  loop-rate  4 kHz

motors
  esc-signal  digital
  esc-rate    300 kbit/s

rates
  roll            slope 200 deg/s  end 700 deg/s
  throttle-limit  90 %

rates-second
  roll  end 300 deg/s
`;
const JUG = "file:///shed/jug.fettle";

let session: Session;
afterEach(() => session?.end());
const model = (more: object): Promise<PanelModel> => session.client.sendRequest("fettle/panel", { uri: JUG, ...more });

test("every line of the numbers has the address under which the editor knows its file", async () => {
  session = await startSession(filesInMemory({ "/shed/jug.fettle": jug, "/shed/tune ä.fettle": tune }));
  await session.open(JUG, jug);
  const { numbers } = await model({ view: "numbers" });
  const own = (line: number) => ({ file: JUG, line });
  expect(numbers).toMatchObject({
    rates: { axes: [{ at: own(17) }], throttle: { at: own(18) } },
    secondRates: { axes: [{ at: own(21) }], throttle: { at: own(18) } },
    packs: [{ at: own(5), marks: [{ name: "warn-at", at: own(6) }] }],
    filters: { parts: [{ at: { file: "file:///shed/tune%20%C3%A4.fettle", line: 3 } }] },
    loop: { at: own(10), gyroAt: own(9), commandAt: own(14) },
  });
  expect(session.log).toEqual([]);
});

test("whoever looks at something else is sent no numbers", async () => {
  session = await startSession(filesInMemory({ "/shed/jug.fettle": jug, "/shed/tune ä.fettle": tune }));
  await session.open(JUG, jug);
  for (const view of ["goggles", "switches", undefined]) expect((await model({ view })).numbers).toBe(null);
});
