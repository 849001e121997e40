/** The craft that pastes are held against, and the files it uses. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";

export const core = makeCore(makeCatalogue());

export const JUG = "/shed/craft/jug.fettle";
export const HABITS = "/shed/layers/habits.fettle";
export const WHEEL = "/shed/handsets/wheel.fettle";

export const SHED: Readonly<Record<string, string>> = {
  [WHEEL]: `handset "Wheel"

transmitter
  band   2.4 GHz
  power  100 mW

controls
  TL  switch  ch5   up 1000 us  down 2000 us  lies left shoulder
  TR  switch  ch6   up 1000 us  mid 1500 us  down 2000 us  lies right shoulder
  FL  switch  ch7   up 1000 us  mid 1500 us  down 2000 us  lies left face
  FR  switch  ch8   away 1000 us  near 2000 us  lies right face
  PB  button  ch9   rest 1000 us  held 2000 us
  KN  dial    ch10  1000 us to 2000 us
`,
  [HABITS]: `layer "Habits"

modes
  # always the left shoulder
  arm       when TL is down
  level     when TR is mid
  recorder  when arm

safety
  arm-tilt-limit  30 deg

failsafe
  hold-for  1 s
  then      stop

rates
  roll   slope 120 deg/s  end 720 deg/s  bend 3
  pitch  slope 120 deg/s  end 720 deg/s  bend 3
`,
  [JUG]: `# flies over the clay pit
craft "Jug"

use "../handsets/wheel.fettle"
use "../layers/habits.fettle"

board
  model  "blue edge"

frame
  motors              4
  propeller-diameter  5.1 in
  mass                640 g

pack
  chemistry  lipo
  cells      6
  capacity   1100 mAh
  # told by the sag of last winter
  warn-at    3.5 V/cell
  land-at    3.3 V/cell

link
  band      2.4 GHz
  channels  16

modes
  turtle  when FR is near

osd
  grid          53 x 20
  pack-volts    at left+3, bottom-2
  link-quality  at right-3, top+2

motors
  reversible  yes

ports
  port1  receiver
`,
};

export function shed(texts: Readonly<Record<string, string>> = SHED): Workspace {
  return core.at(memoryFiles(texts));
}
