/** Keeps what the user has set the same as in the editor, by whichever way the editor tells it. */
import type { Connection } from "vscode-languageserver";
import { SETTINGS_SECTION } from "../../../shared/protocol/settings.ts";
import type { Abilities } from "./capabilities.ts";
import { type Guard, logError } from "./guard.ts";
import { readSettings, type Settings } from "./settings.ts";

interface Parts {
  readonly connection: Connection;
  readonly guard: Guard;
  readonly abilities: () => Abilities;
  /** Called when what counts has changed. */
  readonly changed: (settings: Settings) => void;
}

/** The settings as they are at this moment. */
export interface KeptSettings {
  now(): Settings;
  /** Takes what came with the first message, when nobody has been told anything yet. */
  begin(section: unknown): void;
  /** From now on the editor may be asked. */
  initialized(): void;
}

const CHANGES = {
  registrations: [
    {
      id: "settings",
      method: "workspace/didChangeConfiguration",
      registerOptions: { section: SETTINGS_SECTION },
    },
  ],
};

/** As nobody has set anything yet. */
export function keepSettings({ connection, guard, abilities, changed }: Parts): KeptSettings {
  let { settings, key } = readSettings(undefined);
  let told = "";
  /** Gives whether anything has changed. An editor that answers nothing at all has no say in it. */
  const take = (section: unknown): boolean => {
    if (section === null || section === undefined) return false;
    const read = readSettings(section);
    // Said once, and not with every change of another setting.
    const refused = read.refused.join("\n");
    if (refused !== told && refused !== "") connection.console.warn(refused);
    told = refused;
    const isOther = read.key !== key;
    if (isOther) ({ settings, key } = read);
    return isOther;
  };
  const takeLater = (section: unknown): void => {
    if (take(section)) changed(settings);
  };
  const ask = guard<[], void>("settings", undefined, async () =>
    takeLater(await connection.workspace.getConfiguration(SETTINGS_SECTION)),
  );
  connection.onDidChangeConfiguration(
    guard("changed settings", undefined, async (params) => {
      if (abilities().givesSettings) return ask();
      const sent: unknown = params.settings;
      const isWhole = typeof sent === "object" && sent !== null && SETTINGS_SECTION in sent;
      takeLater(isWhole ? (sent as Record<string, unknown>)[SETTINGS_SECTION] : sent);
    }),
  );
  return {
    now: () => settings,
    begin: (section) => void take(section),
    initialized() {
      if (abilities().tellsSettings)
        connection
          .sendRequest("client/registerCapability", CHANGES)
          .catch((error) => logError(connection, "settings", error));
      if (abilities().givesSettings) void ask();
    },
  };
}
