/** The pages of the OSD, which rules look at one by one. */
import type { Page } from "../osd/types.ts";

export const pages: readonly Page[] = ["osd", "osd-second"];
