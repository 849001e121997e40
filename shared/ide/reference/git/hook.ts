/** A hook that stops a commit which brings an error. */
import type { DialectPage } from "../dialect/example.ts";

/** The hook as it is shown, and as a test runs it. */
export const PRE_COMMIT = `#!/bin/sh
# Stops a commit that brings an error. To commit all the same: git commit --no-verify
program=tools/fettle/fettle.js
if [ -f "$program" ]; then
  exec node "$program" check --staged
elif command -v fettle >/dev/null; then
  exec fettle check --staged
fi
echo "fettle is not here, so this commit was not checked" >&2
`;

export const hook: DialectPage = {
  name: "git-hook",
  title: "A hook before each commit",
  parts: [
    `
*findings before a commit*

A file of git's own that checks what is staged, and stops a commit that brings an error.

Write this into a file \`.git/hooks/pre-commit\`, and make it one that can be run (\`chmod +x .git/hooks/pre-commit\`):

\`\`\`sh
${PRE_COMMIT}\`\`\`

It looks at what is staged and not at the working tree, so half a change that you left out does not disturb. Only errors that this commit brings stop it; what was there before does not, and warnings are told and let through. With \`check --staged --strict\` warnings stop it as well. A finding that is right as it is, accept with a reason, \`# allow CODE: why\`, rather than going past the hook.

It takes the program from the folder \`tools/fettle\` of the repository, where \`git-ci\` puts it, else the \`fettle\` that the shell finds.

## For everybody who clones

Hooks are not shared by git. To share this one, commit it as \`.githooks/pre-commit\`; each clone then turns it on:

\`\`\`sh
git config core.hooksPath .githooks
\`\`\`

Read a hook before you turn it on: it runs whenever you commit.
`,
  ],
};
