/** The pages about several craft at once. */
import { type DialectPage, pageText } from "../dialect/example.ts";
import { channels } from "./channels.ts";
import { fleetPage } from "./page.ts";

export const fleetPages: readonly DialectPage[] = [fleetPage, channels];

/** The page of this name as Markdown; null where no page about several craft is called so. */
export function fleetTopic(name: string): string | null {
  const page = fleetPages.find((each) => each.name === name);
  return page ? pageText(page) : null;
}
