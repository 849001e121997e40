/** How git shows and merges scripts, and what is found of a change alone. */
import type { DialectPage } from "../dialect/example.ts";

export const keeping: DialectPage = {
  name: "git",
  title: "Keeping configurations in git",
  parts: [
    `
*diffs, merges, findings of a change*

How git shows what changed in a script and merges what two people changed, and how to see only the findings that a change brought.

## Set up, once in each clone

\`\`\`sh
fettle git install
\`\`\`

This writes one line into \`.gitattributes\` at the top of the repository, which you commit:

\`\`\`
*.fettle diff=fettle merge=fettle
\`\`\`

and, into the local configuration of this clone, how git runs the program. git never shares that part, so that nobody's repository can run a program on your computer; whoever clones runs \`fettle git install\` as well. \`fettle git remove\` takes out both, byte for byte. Where the program is not there, git shows and merges scripts as it does any text.

## Diffs

\`git diff\`, \`git log -p\`, \`git show\` and \`git blame\` show scripts in their canonical layout, that of \`fettle format\`. What is only laid out in another way is no difference. In what they show, the name of the craft stands behind the name of each section, as the nearest such line is what git writes at the head of a piece:

\`\`\`
@@ -28,7 +28,7 @@ pack  # of Tankard
   full-at           4.2 V/cell
-  warn-at           3.5 V/cell
+  warn-at           3.6 V/cell
   land-at           3.3 V/cell
\`\`\`

git looks for that line above the lines that it shows: where the name of the section is itself among them, the head names the section before.

- \`git log -L :pack:craft/tankard.fettle\` follows one section through the history, \`fettle history craft/tankard.fettle warn-at\` one value, also through layers.
- Where a longer name moves a column, all lines of the column are laid out anew: \`git diff -w\` leaves out those that only moved.
- \`git diff --word-diff\` shows the value that changed inside its line.
- A diff that is to be applied needs the bytes as they are: \`git format-patch\` has them, \`git diff --no-textconv\` shows them. \`git add -p\` and \`git stash -p\` work with them of themselves.
- \`fettle compare HEAD:craft/tankard.fettle craft/tankard.fettle\` tells what differs in meaning, riskiest first.

The program is started for each text that is shown, so a long \`git log -p\` takes a while. \`git config diff.fettle.cachetextconv true\` keeps what it printed, in notes of the repository; after an update of the program, \`git update-ref -d refs/notes/textconv/fettle\` throws them away.

## Merges

\`git merge\`, \`git rebase\`, \`git cherry-pick\` and \`git stash pop\` put scripts together statement by statement, by \`fettle merge\`. Two people may change neighbouring lines, move sections or lay lines out anew. Only where both changed one entry in different ways both stand between git's marks, and nothing else does. The page \`git-merge\` says more.

## Only what a change brought

\`\`\`sh
fettle check --staged                  # what is about to be committed
fettle check --since HEAD~3            # the working tree, against three commits ago
fettle check --since "$(git merge-base main HEAD)"   # this branch, against where it left main
\`\`\`

A finding that was there before is not told again: not where its line has moved within its file or to another of the craft's files, nor where the file has another name. A second of the same kind is told. What a change of a layer or a handset brings is told of each craft that uses it. All else is as without these options: paths, levels, formats, exit status.

To have that run by itself, see \`git-hook\` for each commit and \`git-ci\` for each push.
`,
  ],
};
