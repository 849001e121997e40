/** What two services that build and test each change need, to check scripts. */
import type { DialectPage } from "../dialect/example.ts";

/** How the program gets into a repository; `PROJECT` is the folder of this one, where it was built. */
export const KEEP_PROGRAM = `mkdir -p tools/fettle
cp -r PROJECT/dist/fettle.js PROJECT/dist/package.json PROJECT/dist/cli tools/fettle
git add tools/fettle
`;

/** `.github/workflows/scripts.yml` */
export const GITHUB = `name: Scripts
on:
  pull_request:
  push:
    branches: [main]
permissions:
  contents: read
  security-events: write
jobs:
  check:
    runs-on: ubuntu-latest
    steps:
      - uses: actions/checkout@v4
        with:
          # The whole history: a change is held against where it began.
          fetch-depth: 0
      - uses: actions/setup-node@v4
        with:
          node-version: 20
      - name: What this change brings
        if: github.event_name == 'pull_request'
        run: node tools/fettle/fettle.js check --strict --since "$(git merge-base "origin/$GITHUB_BASE_REF" HEAD)"
      - name: All findings, for the list of the repository
        if: always()
        # 1 says that there are some, which the list shows.
        run: node tools/fettle/fettle.js check --format sarif > scripts.sarif || test $? = 1
      - uses: github/codeql-action/upload-sarif@v3
        if: always()
        with:
          sarif_file: scripts.sarif
`;

/** `.gitlab-ci.yml` */
export const GITLAB = `scripts:
  image: node:20
  variables:
    # The whole history: a change is held against where it began.
    GIT_DEPTH: "0"
  rules:
    - if: $CI_PIPELINE_SOURCE == "merge_request_event"
    - if: $CI_COMMIT_BRANCH == $CI_DEFAULT_BRANCH
  script:
    # 1 says that there are some, which the file lists.
    - node tools/fettle/fettle.js check --format sarif > scripts.sarif || test $? = 1
    - |
      if [ -n "$CI_MERGE_REQUEST_DIFF_BASE_SHA" ]; then
        node tools/fettle/fettle.js check --strict --since "$CI_MERGE_REQUEST_DIFF_BASE_SHA"
      fi
  artifacts:
    when: always
    paths:
      - scripts.sarif
`;

export const continuous: DialectPage = {
  name: "git-ci",
  title: "Checking each change on a server",
  parts: [
    `
*GitHub Actions, GitLab CI*

Files for two services that check each proposed change, and tell only what it brings.

## The program

A server has to have the program. It needs Node 20 and nothing else, so it can be kept in the repository itself. With \`PROJECT\` for the folder in which you built it (\`npm run build\`):

\`\`\`sh
${KEEP_PROGRAM}\`\`\`

## GitHub Actions

\`.github/workflows/scripts.yml\`:

\`\`\`yaml
${GITHUB}\`\`\`

A proposed change fails with a warning or an error that it brings; take \`--strict\` out to let warnings through. All findings go into the repository's list as SARIF, each with its page and its fixes. A finding keeps its place in the list while its line moves, as its fingerprint stays. Where a repository has no such list, leave out that step, its file and \`security-events\`.

## GitLab CI

\`.gitlab-ci.yml\`:

\`\`\`yaml
${GITLAB}\`\`\`

## Any other service

It needs the history back to where the change began, not the last commit alone: in a clone that was made with \`--depth\`, a revision may not be there, which is then said. Exit status 0 says that nothing is at or above error (with \`--strict\`: warning), 1 that something is, 2 that the check could not run. \`fettle format --check\` fails where a script is not in canonical layout.
`,
  ],
};
