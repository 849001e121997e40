/** What the bench list is: its order, what of it is due, and how it is printed. */
import type { DialectPage } from "../dialect/example.ts";

/** The parts in their order, as the list titles them; tests hold them to the list. */
export const PARTS_IN_ORDER: readonly (readonly [title: string, why: string])[] = [
  [
    "Before any power",
    "propellers off, antennas on, no short between the pack's leads, screws and wires, and whether script and board are of each other",
  ],
  [
    "First power",
    "through a current limiter, with a hand at the plug; the video transmitter is not left without moving air",
  ],
  ["Link", "handset and receiver belong together, and the handset warns of an open throttle"],
  ["Sticks", "each moves its own channel, in its direction, to its ends and back to its middle"],
  ["Mount and sensors", "the craft tilted by hand: horizon, heading and compass follow"],
  ["Switches and modes", "every position of every control, with what must come on and go off"],
  ["Arming", "refused in each way that the script says it must be, then accepted once"],
  ["Motors", "one at a time: its corner, its direction, which way its propeller belongs"],
  ["Handset off", "what happens then, and after how many seconds"],
  ["Meters", "the pack's volts against a meter, the charge put back against the charge counted"],
  ["Finder, lights, recorder, camera", "what is missed only when it is needed"],
  ["Picture", "the OSD in the goggles beside ours, and where and how strongly it is sent"],
  ["Outdoors", "range before the propellers go on, then a short hover, and the way home last of all"],
];

export const benchListPage: DialectPage = {
  name: "bench-list",
  title: "The bench list",
  parts: [
    `
*what to check before it flies, in the order that is safe*

What there is to check on the bench for one craft, with the readings to expect. It is made of the script of that craft, so it asks for nothing that the craft does not have.

\`\`\`sh
fettle bench craft/tankard.fettle                       # as text
fettle bench craft/tankard.fettle --out tankard.html    # to print, with the pictures of the craft
fettle bench craft/tankard.fettle --out tankard.md      # as Markdown, with boxes to tick
fettle bench craft/tankard.fettle --due                 # only what is to be done again
\`\`\`

## The order

${PARTS_IN_ORDER.map(([title, why]) => `- *${title}*: ${why}.`).join("\n")}

A part in which a craft has nothing to check is left out. Nothing that can arm or spin stands before “propellers off”, and nothing flies before the last part.

## What is due

A check that is kept has a day in section \`bench\`, in the script of the craft itself: \`mount-checked 2026-03-15\`. Each knows what it covers: \`mount-checked\` how the board and the compass sit, \`motors-checked\` the corner, direction and output of each motor. Where the script is in git, such a value that is another one than on that day makes the check due again, and the list says what changed and when; without git the board's \`flashed-on\` does. The rule \`stale-check\` tells the same beside the line. What has its day and is still good keeps one line, with that day and no box; steps that no day is kept of are done each time.

\`--due\` leaves only what is to be done again, with the steps that safety asks for before it. A craft on which nothing was ever checked has the whole list.

## Readings

Where a step reads a value, the list has what to expect, with its tolerance, a line to write on, and the form in which section \`bench\` takes it: \`roll 988 us to 2012 us\`. What the script does not say is not guessed: it stands at the end, with what to write.

## On paper

The HTML is one file without scripts that needs no network. Print it from a browser, upright, on A4 or letter paper; black and white is enough. It has its own foot with the craft and the page, so turn the browser's headers and footers off. No step is broken over two pages, and the OSD, the handset and the motors from above stand beside the steps that use them. What is ticked on a screen is kept by nothing.
`,
  ],
};
