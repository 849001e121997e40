/** Scripts to measure with: a usual handset and craft, and a workspace of a given size over six files. */
import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";

/** The controls of a usual handset: eight of them, as lines of its section. */
export const USUAL_CONTROLS = `  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  SL switch ch7 up 1000 us mid 1500 us down 2000 us
  SR switch ch8 up 1000 us mid 1500 us down 2000 us
  PB button ch9 rest 1000 us held 2000 us
  PC button ch10 rest 1000 us held 2000 us
  KN dial ch11 1000 us to 2000 us
  SX selector ch12 one 1000 us two 1200 us three 1400 us four 1600 us five 1800 us six 2000 us
`;

/** The modes of a usual craft on them: fourteen. */
export const USUAL_MODES = `  arm when TL is down
  arm-permit when not ch3 above 1900 us or PC is held
  level when TR is up
  level-blend when TR is mid and not turtle
  level-now when PB is held and arm
  turtle when SL is down and TR is down
  finder when SR is up and not arm
  lights when SX is two or SX is three
  lights-off when SX is six
  video-low when KN below 1300 us
  video-high when KN above 1700 us and arm
  recorder when arm and SR is down
  osd-hide when SL is mid and not finder
  rates-second when SX is five or KN in 1400 us to 1600 us
`;

const handset = `handset "Wheel"

transmitter
  band   2.4 GHz
  power  100 mW

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  SL  switch  ch7  up 1000 us  mid 1500 us  down 2000 us
  SR  switch  ch8  up 1000 us  mid 1500 us  down 2000 us
  PB  button  ch9  rest 1000 us  held 2000 us
  KN  dial    ch10  1000 us to 2000 us
`;

/** The layers of a workspace, and the handset that they use, by path. */
export const layers: Readonly<Record<string, string>> = {
  "handsets/wheel.fettle": handset,
  "layers/base.fettle": `layer "Base"

sensors
  accelerometer  yes
  barometer      no

motors
  poles       14
  esc-signal  digital
  reversible  yes
`,
  "layers/habits.fettle": `layer "Habits"

use "../handsets/wheel.fettle"

modes
  # arm is always the left shoulder switch, pulled down
  arm       when TL is down
  level     when TR is mid
  turtle    when TR is down and not SL is down
  level-now when PB is held
  finder    when SR is down
`,
  "layers/osd.fettle": `layer "Wide OSD"

osd
  grid          53 x 20
  pack-volts    at left+3, bottom-2
  cell-volts    at left+3, bottom-1
  link-quality  at right-3, top+2
  flight-time   at right-3, bottom-2
  alerts        at centre, top+2
  mode          at centre, bottom-1
  sight         at centre, middle
`,
  "layers/rates.fettle": `layer "Rates"

rates
  roll   slope 120 deg/s  end 720 deg/s
  pitch  slope 120 deg/s  end 720 deg/s
  yaw    slope 100 deg/s  end 500 deg/s
`,
  "layers/tune.fettle": `layer "Tune"

use "rates.fettle"

filters
  smooth-gyro  cut 250 Hz  order 2
`,
};

const head = `craft "Tankard"

use "handsets/wheel.fettle"
use "layers/base.fettle"
use "layers/habits.fettle"
use "layers/osd.fettle"
use "layers/tune.fettle"

pack
  chemistry  lipo
  cells      6
  capacity   1100 mAh
  warn-at    3.5 V/cell
  land-at    3.3 V/cell

modes
  recorder  when arm

osd
  amps           at left+3, top+2
  used-capacity  at left+3, top+3
`;

/** Of what nobody translated yet there is the most in a long script: lines of board text that are kept. */
const KEPT_FOR_EACH_PACK = 16;

/**
 * A craft of so many lines: what it is, then a shelf of packs with their notes, and after each of
 * them board lines that are kept. At 500 lines that is 20 packs, at 10,000 it is 400.
 */
export function craftOf(lines: number): string {
  const text = head.split("\n");
  for (let i = 0; text.length + 9 + KEPT_FOR_EACH_PACK < lines; i++) {
    text.push("", `# bought in spring, tab number ${i}`, `pack "Shelf ${i}"`);
    text.push(
      `  capacity  ${1000 + (i % 900)} mAh`,
      `  warn-at   ${3.4 + (i % 3) / 10} V/cell  # as on the label`,
      "  cells     6",
    );
    text.push("", 'verbatim "kiln"');
    for (let k = 0; k < KEPT_FOR_EACH_PACK; k++) text.push(`  | shelf ${i} row ${k} = ${(i * 37 + k * 11) % 997}`);
  }
  while (text.length < lines) text.push("# a note");
  return `${text.slice(0, lines - 1).join("\n")}\n`;
}

const POTS = ["Tankard", "Jug", "Saucer", "Beaker", "Urn", "Crock", "Pitcher", "Bowl", "Ewer", "Vase"];

/**
 * So many craft by path, in folders of fifty, each on the six shared files and on a layer that it shares with those
 * of its folder. Most have no finding, every tenth has a few.
 */
export function fleetOf(count: number): Record<string, string> {
  const files: Record<string, string> = { ...layers };
  for (let i = 0; i < count; i++) {
    const shelf = `shelf-${Math.floor(i / 50)}`;
    files[`${shelf}/shared.fettle`] ??= `layer "${shelf}"\n\nlink\n  band  2.4 GHz\n\nfailsafe\n  then  stop\n`;
    const uses = ["handsets/wheel", "layers/base", "layers/habits", "layers/osd", "layers/tune"];
    const lines = [`craft "${POTS[i % POTS.length]} ${i}"`, ""];
    lines.push(...uses.map((name) => `use "../${name}.fettle"`), 'use "shared.fettle"', "");
    lines.push("# what it flies on", "pack", "  chemistry  lipo", `  cells      ${4 + (i % 3)}`);
    lines.push(`  capacity   ${900 + (i % 40) * 10} mAh`, "  warn-at    3.5 V/cell", "  land-at    3.3 V/cell", "");
    lines.push("frame", "  motors              4", `  mass                ${520 + (i % 90)} g`);
    lines.push("  propeller-diameter  5.1 in", "", "modes", "  recorder  when arm", "", "recorder", "  to  flash");
    lines.push("", "osd", "  amps           at left+3, top+2", `  used-capacity  at left+3, top+${3 + (i % 4)}`);
    if (i % 10 === 0) lines.push("", "pack", "  cells 6", "  kettle 3", "modes", "  level when TL is mid");
    files[`${shelf}/craft-${i}.fettle`] = `${lines.join("\n")}\n`;
  }
  return files;
}

/** The workspace by path: the craft is `tankard.fettle`, beside the files that it uses. */
export function workspaceFiles(craft: string): Record<string, string> {
  return { ...layers, "tankard.fettle": craft };
}

/** Writes the workspace into a folder of its own; gives that folder. The craft is \`tankard.fettle\`. */
export function writeWorkspace(craft: string): string {
  const folder = mkdtempSync(join(tmpdir(), "fettle-bench-"));
  for (const [path, text] of Object.entries(workspaceFiles(craft))) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}
