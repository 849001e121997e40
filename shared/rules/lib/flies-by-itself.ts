/** When a craft flies home, or comes down, without its pilot. */
import type { Craft } from "../../model/craft.ts";
import { choiceOf, settingOf } from "../../model/setting-lookup.ts";
import type { SettingName } from "../engine/rule.ts";

/** The settings by which a craft may fly home, besides the mode `return-home`. */
export const RETURN_SETTINGS: readonly SettingName[] = [
  "failsafe.then",
  "failsafe.pack-empty-then",
  "navigation.fence-distance",
  "navigation.fence-does",
];

/** Whether anything makes the craft fly home by itself: a switch, the loss of the signal, an empty pack, the fence. */
export function mayReturn(craft: Craft): boolean {
  if (craft.modes.has("return-home") || choiceOf(craft, "failsafe.then") === "return") return true;
  if (choiceOf(craft, "failsafe.pack-empty-then") === "return") return true;
  const fence = settingOf(craft, "navigation.fence-distance")?.value;
  return fence?.kind === "quantity" && choiceOf(craft, "navigation.fence-does") === "return-home";
}

/** The settings by which a craft may come down blindly, besides the mode `return-home`. */
export const DESCENT_SETTINGS: readonly SettingName[] = [...RETURN_SETTINGS, "failsafe.then-without-fix"];

/** Whether the loss of the signal may end in a blind descent: at once, or in place of a return. */
export function descendsOnLoss(craft: Craft): boolean {
  const then = choiceOf(craft, "failsafe.then");
  return then === "descend" || (then === "return" && choiceOf(craft, "failsafe.then-without-fix") === "descend");
}

/** Whether anything may end in a blind descent. */
export function mayDescend(craft: Craft): boolean {
  if (descendsOnLoss(craft) || choiceOf(craft, "failsafe.pack-empty-then") === "descend") return true;
  return choiceOf(craft, "failsafe.then-without-fix") === "descend" && mayReturn(craft);
}
