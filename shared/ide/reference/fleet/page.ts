/** What is seen of all craft side by side, and when a habit counts as the same. */
import type { DialectPage } from "../dialect/example.ts";

export const fleetPage: DialectPage = {
  name: "fleet",
  title: "The fleet",
  parts: [
    `
*all craft side by side, and where one is otherwise than most*

What the controls do on each craft, key settings, layers, checks and video channels as tables, with what is otherwise than on most craft marked.

\`\`\`sh
fettle fleet                            # every craft below the working folder
fettle fleet craft/tankard.fettle craft/jug.fettle
fettle fleet --format json              # the same as data; fettle fleet --help has its shape
fettle fleet --out fleet.html           # a page to print
\`\`\`

## The tables

- *Controls*, a table for each handset file: what each position of each control turns on, and what a dial moves. Channels that no control drives stand last, and then the conditions of which nothing is known.
- *Key settings*: what a pilot relies on with whichever craft, such as the failsafe and the link; what the bag for the field is packed by; what tells craft apart. An empty cell says that no line of the craft does.
- *Layers*: in each cell the place of the layer in the order in which the craft's files are merged, where later ones win. It is marked where most craft that use both layers have them the other way round.
- *Checks on the bench*: the day, \`never\`, or what has made the check due again.
- *Video*: who sends what on which frequency.

## Most

A cell is marked where it says something else than on most craft: more than half of those that say anything there. On a tie there is no “most”. Values are compared by what they mean, so that 1.1 Ah is 1100 mAh, and controls by what they do, however the conditions are written. What a file that is missing may have said is told as not known, and has no vote.

## Habits

The rule \`fleet-habit\` tells of a mode that is elsewhere than on most craft with the same handset file, on the mode's line or on the \`use\` line that brings it. It is a warning for \`arm\`, \`turtle\` and \`return-home\`, and a hint for all others. What counts is what the hand does:

- The movement from rest. \`turtle when FR is near\` and \`turtle when FR is near and TR is up\` are one habit on a handset on which TR rests up.
- Not whether the craft is armed: \`video-high when FL is down and arm\` is found at FL down as well. Nor where a stick is.
- A range of a dial by the third of its travel in which the middle of the range lies.
- The lever, not its name: a craft that says a control of its handset anew is held to the handset's own names, by the name of the control or its channel, and by the name of the position or its pulse.
- Only craft that set the mode up have a vote, this one included; with fewer than three nobody is told anything. Outputs are each craft's own and are not compared.

One layer of habits that all craft use ends most of these findings at once. Where a craft is meant to be otherwise, accept it on its line: \`# allow fleet-habit: lent to a friend whose hand knows it there\`.

In the editor the craft of the workspace are compared in the background, and what is typed is held to the others at once. On the command line it is the same workspace, whichever of its files are named; where no folder is marked as one by git or by \`.fettle-root\`, only the craft that were named are compared.
`,
  ],
};
