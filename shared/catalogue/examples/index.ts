/** How every setting is written, with values that a pilot could fly. */
import type { ExampleTable } from "../specs.ts";
import { craftExamples } from "./craft.ts";
import { flightExamples } from "./flight.ts";
import { radioExamples } from "./radio.ts";

export { elementExamples } from "./elements.ts";

export const settingExamples: ExampleTable = { ...craftExamples, ...flightExamples, ...radioExamples };
