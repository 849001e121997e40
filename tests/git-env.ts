/** The environment in which a test runs git: a user with a name, and nothing of anybody's own settings. */
export const GIT_ENV = {
  GIT_CONFIG_GLOBAL: "/dev/null",
  GIT_CONFIG_NOSYSTEM: "1",
  GIT_AUTHOR_NAME: "Potter",
  GIT_AUTHOR_EMAIL: "potter@shed.example",
  GIT_COMMITTER_NAME: "Potter",
  GIT_COMMITTER_EMAIL: "potter@shed.example",
};
