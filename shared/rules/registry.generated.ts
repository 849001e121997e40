// Made by npm run generate from the rules in this folder. Do not edit.
import { rule as allowUnexplained } from "./allow-unexplained.ts";
import { rule as armAtRest } from "./arm-at-rest.ts";
import { rule as armInMiddle } from "./arm-in-middle.ts";
import { rule as armMissing } from "./arm-missing.ts";
import { rule as armOnButton } from "./arm-on-button.ts";
import { rule as armOnDial } from "./arm-on-dial.ts";
import { rule as armOnLowPulse } from "./arm-on-low-pulse.ts";
import { rule as armTiltOpen } from "./arm-tilt-open.ts";
import { rule as bandMismatch } from "./band-mismatch.ts";
import { rule as cellsAmbiguous } from "./cells-ambiguous.ts";
import { rule as channelBeyond } from "./channel-beyond.ts";
import { rule as channelShared } from "./channel-shared.ts";
import { rule as conditionAlways } from "./condition-always.ts";
import { rule as conditionCycle } from "./condition-cycle.ts";
import { rule as conditionNever } from "./condition-never.ts";
import { rule as conditionUnset } from "./condition-unset.ts";
import { rule as controlIdle } from "./control-idle.ts";
import { rule as currentOverRating } from "./current-over-rating.ts";
import { rule as descendBlind } from "./descend-blind.ts";
import { rule as directionUnchecked } from "./direction-unchecked.ts";
import { rule as dividerClips } from "./divider-clips.ts";
import { rule as dropNothing } from "./drop-nothing.ts";
import { rule as duplicateEntry } from "./duplicate-entry.ts";
import { rule as editionNewer } from "./edition-newer.ts";
import { rule as endpointsOff } from "./endpoints-off.ts";
import { rule as failsafeHoldsArm } from "./failsafe-holds-arm.ts";
import { rule as filterDelay } from "./filter-delay.ts";
import { rule as gridMismatch } from "./grid-mismatch.ts";
import { rule as levelsLost } from "./levels-lost.ts";
import { rule as loopBudget } from "./loop-budget.ts";
import { rule as lossHidden } from "./loss-hidden.ts";
import { rule as missingUnit } from "./missing-unit.ts";
import { rule as modeClash } from "./mode-clash.ts";
import { rule as modeNeeds } from "./mode-needs.ts";
import { rule as modeOverlap } from "./mode-overlap.ts";
import { rule as modeShadowed } from "./mode-shadowed.ts";
import { rule as osdCentreClutter } from "./osd-centre-clutter.ts";
import { rule as osdEssentials } from "./osd-essentials.ts";
import { rule as osdOffGrid } from "./osd-off-grid.ts";
import { rule as osdOverlap } from "./osd-overlap.ts";
import { rule as osdUnsafeArea } from "./osd-unsafe-area.ts";
import { rule as outOfRange } from "./out-of-range.ts";
import { rule as outputUnexplained } from "./output-unexplained.ts";
import { rule as packChemistry } from "./pack-chemistry.ts";
import { rule as packOrder } from "./pack-order.ts";
import { rule as portClash } from "./port-clash.ts";
import { rule as portMissing } from "./port-missing.ts";
import { rule as positionsAlike } from "./positions-alike.ts";
import { rule as returnUnready } from "./return-unready.ts";
import { rule as sectionMisplaced } from "./section-misplaced.ts";
import { rule as shuntClips } from "./shunt-clips.ts";
import { rule as syntax } from "./syntax.ts";
import { rule as thinMargin } from "./thin-margin.ts";
import { rule as throttleCannotArm } from "./throttle-cannot-arm.ts";
import { rule as tuneHot } from "./tune-hot.ts";
import { rule as unknownName } from "./unknown-name.ts";
import { rule as unusualValue } from "./unusual-value.ts";
import { rule as useBroken } from "./use-broken.ts";
import { rule as useCycle } from "./use-cycle.ts";
import { rule as useKind } from "./use-kind.ts";
import { rule as useMissing } from "./use-missing.ts";
import { rule as videoBand } from "./video-band.ts";
import { rule as videoPower } from "./video-power.ts";
import { rule as wrongType } from "./wrong-type.ts";
import { rule as wrongUnit } from "./wrong-unit.ts";
import type { Rule } from "./types.ts";

export const rules: readonly Rule[] = [
  allowUnexplained,
  armAtRest,
  armInMiddle,
  armMissing,
  armOnButton,
  armOnDial,
  armOnLowPulse,
  armTiltOpen,
  bandMismatch,
  cellsAmbiguous,
  channelBeyond,
  channelShared,
  conditionAlways,
  conditionCycle,
  conditionNever,
  conditionUnset,
  controlIdle,
  currentOverRating,
  descendBlind,
  directionUnchecked,
  dividerClips,
  dropNothing,
  duplicateEntry,
  editionNewer,
  endpointsOff,
  failsafeHoldsArm,
  filterDelay,
  gridMismatch,
  levelsLost,
  loopBudget,
  lossHidden,
  missingUnit,
  modeClash,
  modeNeeds,
  modeOverlap,
  modeShadowed,
  osdCentreClutter,
  osdEssentials,
  osdOffGrid,
  osdOverlap,
  osdUnsafeArea,
  outOfRange,
  outputUnexplained,
  packChemistry,
  packOrder,
  portClash,
  portMissing,
  positionsAlike,
  returnUnready,
  sectionMisplaced,
  shuntClips,
  syntax,
  thinMargin,
  throttleCannotArm,
  tuneHot,
  unknownName,
  unusualValue,
  useBroken,
  useCycle,
  useKind,
  useMissing,
  videoBand,
  videoPower,
  wrongType,
  wrongUnit,
];
