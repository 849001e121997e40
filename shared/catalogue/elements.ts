/** The elements of the display, in the order in which reference pages and lists show it. */
import { craftElements } from "./elements/craft.ts";
import { flightElements } from "./elements/flight.ts";
import { linkElements } from "./elements/link.ts";
import { placeElements } from "./elements/place.ts";
import { powerElements } from "./elements/power.ts";
import type { ElementSpec } from "./specs.ts";

export const elements: readonly ElementSpec[] = [
  ...powerElements,
  ...linkElements,
  ...craftElements,
  ...flightElements,
  ...placeElements,
];
