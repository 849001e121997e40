/** How merges of scripts go: what is put together, what is a conflict and why, and how one is settled. */
import type { DialectPage } from "../dialect/example.ts";

/** What the page shows: a text, what two people made of it, and what comes of both. Tests merge them. */
export interface MergeExample {
  readonly base: string;
  readonly ours: string;
  readonly theirs: string;
  readonly merged: string;
}

export const NEIGHBOURS: MergeExample = {
  base: `craft "Jug"

pack
  cells     6
  # as on the label
  capacity  1100 mAh
  land-at   3.3 V/cell
`,
  ours: `craft "Jug"

pack
  land-at   3.2 V/cell
  cells     6
  # as on the label
  capacity  1100 mAh
`,
  theirs: `craft "Jug"

pack
  cells     6
  # as on the label
  capacity  1300 mAh
  warn-at   3.5 V/cell
  land-at   3.3 V/cell
`,
  merged: `craft "Jug"

pack
  land-at   3.2 V/cell
  cells     6
  # as on the label
  capacity  1300 mAh
  warn-at   3.5 V/cell
`,
};

export const CLASH: MergeExample = {
  base: `craft "Jug"

modes
  # always the left shoulder switch
  arm    when TL is down
  level  when TR is mid
`,
  ours: `craft "Jug"

modes
  # always the left shoulder switch
  arm    when TL is up
  level  when TR is mid
`,
  theirs: `craft "Jug"

modes
  # always the left shoulder switch
  arm    when TL is down and TR is up
  level  when TR is up
`,
  merged: `craft "Jug"

modes
  # always the left shoulder switch
<<<<<<< ours
  arm    when TL is up
=======
  arm    when TL is down and TR is up
>>>>>>> theirs
  level  when TR is up
`,
};

function shown({ base, ours, theirs, merged }: MergeExample): string {
  const block = (text: string) => `\`\`\`\n${text}\`\`\``;
  return `As it was:\n\n${block(base)}\n\nOurs:\n\n${block(ours)}\n\nTheirs:\n\n${block(theirs)}\n\nMerged:\n\n${block(merged)}`;
}

export const merging: DialectPage = {
  name: "git-merge",
  title: "How merges go",
  parts: [
    `
*what is put together, what is a conflict, how to settle one*

What comes of a script that two people changed: what is put together, what is a conflict and why, and how one is settled.

\`fettle merge BASE OURS THEIRS\` does it, and git by itself once \`fettle git install\` was run. *Ours* is the branch one is on, *theirs* the one that is merged; in a rebase it is the other way round, as git puts one's own commits upon the others'.

## What is put together

A merge goes statement by statement: the header, each \`use\`, each section, each entry by its name, each name in a \`drop\`, each line of board text. What one side changed, added, moved or removed is taken, wherever it stands on the other side. A note goes along with its statement. A value in another unit, columns laid out anew and sections in another order are no change of what is said. All that nobody touched stays as ours has it, byte for byte; line ends are those of ours.

${shown(NEIGHBOURS)}

Where both added something in one place, what ours added comes first. Of one statement, one side may have changed the value and the other the note: then both count, so read the note once more.

## What is a conflict

What both changed in different ways stands between git's marks, and nothing else does.

${shown(CLASH)}

No name says in the result what neither side says. Therefore these are conflicts too, though no line was changed twice:

- One removed an entry or a section that the other changed.
- Both changed lines of one mode: together they would be a condition that nobody wrote. The same goes for the fields of one setting.
- Both added a layer in one place, or both put the layers in another order: which of them wins is said by nobody. So too for two new filters in one place of a list, while two filters of a list that are there already may each be changed by one side.
- One took a name back with \`drop\` and the other set it.
- One accepted a finding with \`allow\` on the value that the other changed.
- One renamed a pack to what the other calls another one. A pack that only one side renamed takes the other's changes along.

Dialects keep the order of their lines, since there the first line that fits counts. New lines of both in one place are a conflict where one line of a board's text might fit both.

What is no script, is of a newer edition, is not UTF-8 or holds a merge that nobody settled is merged line by line, as git does any text.

## How to settle one

Keep what is right, remove the three marks, then \`fettle check\` the file and \`git add\` it. Until then the editor reads the first side of each conflict and says so. \`git checkout --conflict=merge FILE\` makes the conflict again, and \`git config merge.conflictStyle zdiff3\` shows the lines as they were in between.

A merge that went through says what the two sides said, and not that they suit each other: where modes, \`arm\` or the failsafe were changed on both, look at the switches once more, propellers off.
`,
  ],
};
