// Made by npm run generate from the rules in shared/rules/all. Do not edit.
import { rule as allowUnexplained } from "../all/allow-unexplained.ts";
import { rule as allowUnknown } from "../all/allow-unknown.ts";
import { rule as allowUnused } from "../all/allow-unused.ts";
import { rule as armAtRest } from "../all/arm-at-rest.ts";
import { rule as armInMiddle } from "../all/arm-in-middle.ts";
import { rule as armLetGo } from "../all/arm-let-go.ts";
import { rule as armMissing } from "../all/arm-missing.ts";
import { rule as armOnButton } from "../all/arm-on-button.ts";
import { rule as armOnDial } from "../all/arm-on-dial.ts";
import { rule as armOnLowPulse } from "../all/arm-on-low-pulse.ts";
import { rule as armTiltOpen } from "../all/arm-tilt-open.ts";
import { rule as bandMismatch } from "../all/band-mismatch.ts";
import { rule as beyondRating } from "../all/beyond-rating.ts";
import { rule as boardCannot } from "../all/board-cannot.ts";
import { rule as boardFile } from "../all/board-file.ts";
import { rule as cellsAmbiguous } from "../all/cells-ambiguous.ts";
import { rule as channelBeyond } from "../all/channel-beyond.ts";
import { rule as channelShared } from "../all/channel-shared.ts";
import { rule as codeLossy } from "../all/code-lossy.ts";
import { rule as codeUnused } from "../all/code-unused.ts";
import { rule as conditionAlways } from "../all/condition-always.ts";
import { rule as conditionCycle } from "../all/condition-cycle.ts";
import { rule as conditionNever } from "../all/condition-never.ts";
import { rule as conditionTangled } from "../all/condition-tangled.ts";
import { rule as conditionUnset } from "../all/condition-unset.ts";
import { rule as controlIdle } from "../all/control-idle.ts";
import { rule as currentOverRating } from "../all/current-over-rating.ts";
import { rule as descendBlind } from "../all/descend-blind.ts";
import { rule as directionUnchecked } from "../all/direction-unchecked.ts";
import { rule as dividerClips } from "../all/divider-clips.ts";
import { rule as dropNothing } from "../all/drop-nothing.ts";
import { rule as duplicateEntry } from "../all/duplicate-entry.ts";
import { rule as editionNewer } from "../all/edition-newer.ts";
import { rule as endpointsOff } from "../all/endpoints-off.ts";
import { rule as failsafeHoldsArm } from "../all/failsafe-holds-arm.ts";
import { rule as failsafeUnsaid } from "../all/failsafe-unsaid.ts";
import { rule as filterDelay } from "../all/filter-delay.ts";
import { rule as fleetHabit } from "../all/fleet-habit.ts";
import { rule as fleetVideo } from "../all/fleet-video.ts";
import { rule as gridMismatch } from "../all/grid-mismatch.ts";
import { rule as hiddenText } from "../all/hidden-text.ts";
import { rule as hoverDoubtful } from "../all/hover-doubtful.ts";
import { rule as levelsLost } from "../all/levels-lost.ts";
import { rule as lineBeaten } from "../all/line-beaten.ts";
import { rule as linesAlike } from "../all/lines-alike.ts";
import { rule as loopBudget } from "../all/loop-budget.ts";
import { rule as lossHidden } from "../all/loss-hidden.ts";
import { rule as meterOff } from "../all/meter-off.ts";
import { rule as missingUnit } from "../all/missing-unit.ts";
import { rule as modeAtRest } from "../all/mode-at-rest.ts";
import { rule as modeClash } from "../all/mode-clash.ts";
import { rule as modeNeeds } from "../all/mode-needs.ts";
import { rule as modeOnlyDisarmed } from "../all/mode-only-disarmed.ts";
import { rule as modeOverlap } from "../all/mode-overlap.ts";
import { rule as modeShadowed } from "../all/mode-shadowed.ts";
import { rule as motorLayout } from "../all/motor-layout.ts";
import { rule as osdCentreClutter } from "../all/osd-centre-clutter.ts";
import { rule as osdEssentials } from "../all/osd-essentials.ts";
import { rule as osdOffGrid } from "../all/osd-off-grid.ts";
import { rule as osdOverlap } from "../all/osd-overlap.ts";
import { rule as osdUnsafeArea } from "../all/osd-unsafe-area.ts";
import { rule as outOfRange } from "../all/out-of-range.ts";
import { rule as outputUnexplained } from "../all/output-unexplained.ts";
import { rule as packChemistry } from "../all/pack-chemistry.ts";
import { rule as packOrder } from "../all/pack-order.ts";
import { rule as permitIdle } from "../all/permit-idle.ts";
import { rule as portClash } from "../all/port-clash.ts";
import { rule as portMissing } from "../all/port-missing.ts";
import { rule as positionsAlike } from "../all/positions-alike.ts";
import { rule as privateInShare } from "../all/private-in-share.ts";
import { rule as returnUnready } from "../all/return-unready.ts";
import { rule as sectionMisplaced } from "../all/section-misplaced.ts";
import { rule as settingNeeds } from "../all/setting-needs.ts";
import { rule as shuntClips } from "../all/shunt-clips.ts";
import { rule as slotEndless } from "../all/slot-endless.ts";
import { rule as slotUnmatched } from "../all/slot-unmatched.ts";
import { rule as staleCheck } from "../all/stale-check.ts";
import { rule as syntax } from "../all/syntax.ts";
import { rule as thinMargin } from "../all/thin-margin.ts";
import { rule as throttleCannotArm } from "../all/throttle-cannot-arm.ts";
import { rule as thrustOdd } from "../all/thrust-odd.ts";
import { rule as tuneHot } from "../all/tune-hot.ts";
import { rule as turtleWithArm } from "../all/turtle-with-arm.ts";
import { rule as unknownName } from "../all/unknown-name.ts";
import { rule as unusualValue } from "../all/unusual-value.ts";
import { rule as useBroken } from "../all/use-broken.ts";
import { rule as useCycle } from "../all/use-cycle.ts";
import { rule as useKind } from "../all/use-kind.ts";
import { rule as useMissing } from "../all/use-missing.ts";
import { rule as valuesContradict } from "../all/values-contradict.ts";
import { rule as videoBand } from "../all/video-band.ts";
import { rule as videoPower } from "../all/video-power.ts";
import { rule as wrongType } from "../all/wrong-type.ts";
import { rule as wrongUnit } from "../all/wrong-unit.ts";
import type { Rule } from "./rule.ts";

export const rules: readonly Rule[] = [
  allowUnexplained,
  allowUnknown,
  allowUnused,
  armAtRest,
  armInMiddle,
  armLetGo,
  armMissing,
  armOnButton,
  armOnDial,
  armOnLowPulse,
  armTiltOpen,
  bandMismatch,
  beyondRating,
  boardCannot,
  boardFile,
  cellsAmbiguous,
  channelBeyond,
  channelShared,
  codeLossy,
  codeUnused,
  conditionAlways,
  conditionCycle,
  conditionNever,
  conditionTangled,
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
  failsafeUnsaid,
  filterDelay,
  fleetHabit,
  fleetVideo,
  gridMismatch,
  hiddenText,
  hoverDoubtful,
  levelsLost,
  lineBeaten,
  linesAlike,
  loopBudget,
  lossHidden,
  meterOff,
  missingUnit,
  modeAtRest,
  modeClash,
  modeNeeds,
  modeOnlyDisarmed,
  modeOverlap,
  modeShadowed,
  motorLayout,
  osdCentreClutter,
  osdEssentials,
  osdOffGrid,
  osdOverlap,
  osdUnsafeArea,
  outOfRange,
  outputUnexplained,
  packChemistry,
  packOrder,
  permitIdle,
  portClash,
  portMissing,
  positionsAlike,
  privateInShare,
  returnUnready,
  sectionMisplaced,
  settingNeeds,
  shuntClips,
  slotEndless,
  slotUnmatched,
  staleCheck,
  syntax,
  thinMargin,
  throttleCannotArm,
  thrustOdd,
  tuneHot,
  turtleWithArm,
  unknownName,
  unusualValue,
  useBroken,
  useCycle,
  useKind,
  useMissing,
  valuesContradict,
  videoBand,
  videoPower,
  wrongType,
  wrongUnit,
];
