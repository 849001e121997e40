import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Need } from "../../catalogue/specs.ts";
import type { Craft, Source } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { CraftRule, NameGroup, Report, SettingName } from "../engine/rule.ts";
import { headLocation } from "../lib/locations.ts";
import { meetsNeed } from "../lib/met-needs.ts";
import { PORTS } from "../lib/name-groups.ts";

const reports: Need = {
  port: "esc-data",
  reason: "The controllers report over a port, or over the signal wire with rpm-feedback.",
};

/** Values that need a port; a setting that needs one for any value declares it in the catalogue. */
const TAKEN: readonly { path: SettingName; is: string; need: Need }[] = [
  {
    path: "link.wiring",
    is: "serial",
    need: { port: "receiver", reason: "A serial receiver is connected to a serial port." },
  },
  {
    path: "failsafe.then",
    is: "return",
    need: { port: "gps", reason: "The way home comes from a satellite receiver." },
  },
  { path: "safety.arm-needs-fix", is: "yes", need: { port: "gps", reason: "A fix comes from a satellite receiver." } },
  { path: "pack.volts-from", is: "esc-data", need: reports },
  { path: "pack.current-from", is: "esc-data", need: reports },
  { path: "video.set-by", is: "board", need: { port: "video", reason: "The board sets the transmitter over a port." } },
  {
    path: "recorder.to",
    is: "serial",
    need: { port: "recorder", reason: "A recorder outside the board is connected to a port." },
  },
];

interface User {
  readonly what: string;
  readonly source: Source;
  readonly need: Need;
}

interface Needs {
  /** By SECTION.NAME: the ports that a setting needs, if it has this word or for any value. */
  readonly settings: ReadonlyMap<string, readonly { readonly is: string | null; readonly need: Need }[]>;
  readonly elements: ReadonlyMap<string, readonly Need[]>;
}

const needsKnown = new WeakMap<Catalogue, Needs>();

/** The entries of the catalogue that need a port; most do not. */
function needsOf(catalogue: Catalogue): Needs {
  let needs = needsKnown.get(catalogue);
  if (!needs) {
    const ofPort = (all: readonly Need[] = []) => all.filter(({ port }) => port !== undefined);
    const settings = new Map<string, { is: string | null; need: Need }[]>();
    for (const { name: section } of catalogue.sections)
      for (const { name, needs: all } of catalogue.settingsOf(section))
        settings.set(
          `${section}.${name}`,
          ofPort(all).map((need) => ({ is: null, need })),
        );
    for (const { path, is, need } of TAKEN) settings.set(path, [{ is, need }]);
    needs = {
      settings: new Map([...settings].filter(([, all]) => all.length > 0)),
      elements: new Map(catalogue.elements.map(({ name, needs: all }) => [name, ofPort(all)])),
    };
    needsKnown.set(catalogue, needs);
  }
  return needs;
}

/** Everything in use, except modes, that needs a port and has none. */
function inVain(craft: Craft, { catalogue }: Workspace): User[] {
  const users: User[] = [];
  const { settings, elements } = needsOf(catalogue);
  for (const [path, needs] of settings) {
    const [section = "", name = ""] = path.split(".");
    const tables = section === "pack" ? packSections(craft) : [section];
    for (const table of tables) {
      const said = craft.settings.get(table)?.get(name);
      // What is switched off is not in use.
      if (!said?.value || (said.value.kind === "yes-no" && !said.value.yes) || said.text === "none") continue;
      if (path === "osd.distance-alert" && !alertsOn(craft, "far")) continue;
      for (const { is, need } of needs)
        if (is === null || is === said.text) users.push({ what: name, source: said.source, need });
    }
  }
  for (const page of [craft.osd, craft.osdSecond]) {
    for (const { name, value, source } of page.values())
      for (const need of (value && elements.get(name)) ?? []) users.push({ what: name, source, need });
  }
  const bySignal = settingOf(craft, "motors.rpm-feedback")?.text === "yes";
  return users.filter(({ need }) => !meetsNeed(craft, need) && !(need.port === "esc-data" && bySignal));
}

function packSections(craft: Craft): string[] {
  return [...craft.settings.keys()].filter((section) => section === "pack" || section.startsWith("pack/"));
}

/** A threshold is in use only if its alert is on. */
function alertsOn(craft: Craft, alert: string): boolean {
  const on = settingOf(craft, "osd.alert-on")?.value;
  const items = on?.kind === "list" ? on.items : on ? [on] : [];
  return items.some((item) => item.kind === "choice" && item.word === alert);
}

const SETTINGS_WITH_A_PORT: NameGroup = {
  words: "every setting that needs a port",
  names: (catalogue) => [...needsOf(catalogue).settings.keys()],
};

const INSTEAD_OF_A_PORT: NameGroup = {
  words: "every setting that can replace a port",
  names: (catalogue) => {
    const { settings, elements } = needsOf(catalogue);
    const needs = [...[...settings.values()].flat().map(({ need }) => need), ...[...elements.values()].flat()];
    return needs.flatMap(({ or }) => or?.setting ?? []);
  },
};

const ELEMENTS_WITH_A_PORT: NameGroup = {
  words: "every element that is fed by a port",
  names: (catalogue) => [...needsOf(catalogue).elements].flatMap(([name, needs]) => (needs.length > 0 ? name : [])),
};

export const rule: CraftRule = {
  code: "port-missing",
  severity: "error",
  scope: "craft",
  summary: "Something is in use that needs a port, and no port is said to serve it.",
  prose:
    "A part that is set up without a port is either not wired, so that it never does what the script says, or wired to a port of which the script says something else. The board then waits for fixes that never come, or measures zero. Say the port that it is connected to, or take out what nobody can serve. A script that says nothing of its ports is not held to this, and what a mode needs is reported at the mode.",
  examples: {
    bad: { "jug.fettle": 'craft "Jug"\n\nfailsafe\n  then return\n\nports\n  port1 receiver\n' },
    good: { "jug.fettle": 'craft "Jug"\n\nfailsafe\n  then return\n\nports\n  port1 receiver\n  port2 gps\n' },
  },
  looksAt: {
    settings: [SETTINGS_WITH_A_PORT, INSTEAD_OF_A_PORT, PORTS, "motors.rpm-feedback", "osd.alert-on"],
    elements: [ELEMENTS_WITH_A_PORT],
  },
  check(craft, workspace) {
    const byUse = new Map<string, User[]>();
    for (const user of inVain(craft, workspace)) {
      const use = user.need.port!;
      const users = byUse.get(use);
      if (users) users.push(user);
      else byUse.set(use, [user]);
    }
    return [...byUse].map(([use, users]): Report => {
      const [first, ...others] = users as [User, ...User[]];
      const names = [...new Set(users.map(({ what }) => what))];
      const also =
        names.length > 1 ? `, as do ${names.slice(1, 4).join(", ")}${names.length > 4 ? " and more" : ""}` : "";
      return {
        at: headLocation(workspace, first.source),
        message: `${first.what} needs a port that serves ${use}${also}, and none of those said does. ${first.need.reason} Say which port it is in “ports”, or take out what needs it.`,
        related: others.map(({ what, source }) => ({
          message: `${what} needs it too`,
          at: headLocation(workspace, source),
        })),
        alsoOf: others.map(({ source }) => source),
      };
    });
  },
};
