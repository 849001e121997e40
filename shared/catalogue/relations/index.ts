/** How values hang together, as data: what needs what, and which of two must lie above the other. */
import type { Comparison, NeedTable } from "../specs.ts";
import { flightComparisons } from "./flight.ts";
import { loopComparisons } from "./loop.ts";
import { navigationComparisons } from "./navigation.ts";
import { flightNeeds } from "./needs-flight.ts";
import { partNeeds } from "./needs-parts.ts";
import { sensorNeeds } from "./needs-sensors.ts";
import { pictureComparisons } from "./picture.ts";
import { powerComparisons } from "./power.ts";
import { radioComparisons } from "./radio.ts";

export const comparisons: readonly Comparison[] = [
  ...powerComparisons,
  ...flightComparisons,
  ...loopComparisons,
  ...radioComparisons,
  ...navigationComparisons,
  ...pictureComparisons,
];

/** Later tables add to earlier ones. */
export const needTables: readonly NeedTable[] = [sensorNeeds, partNeeds, flightNeeds];
