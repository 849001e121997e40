/** In which order a craft is put back after a wipe, and what of a script a board holds. */

export interface Stage {
  /** Such as `ports`. */
  readonly name: string;
  readonly title: string;
  /** Sections, as a script has them. */
  readonly sections: readonly string[];
}

/** What all else hangs on comes first. Common practice, no source. */
export const STAGES: readonly Stage[] = [
  { name: "ports", title: "Ports", sections: ["ports"] },
  { name: "receiver", title: "Receiver", sections: ["link"] },
  { name: "motors", title: "Motors", sections: ["motors", "frame"] },
  { name: "sensors", title: "Sensors", sections: ["sensors"] },
  { name: "modes", title: "Switches and modes", sections: ["modes", "outputs", "adjust"] },
  { name: "failsafe", title: "Lost signal, arming, way home", sections: ["failsafe", "safety", "navigation"] },
  { name: "osd", title: "OSD", sections: ["osd", "osd-second"] },
  { name: "pack", title: "Pack and its meters", sections: ["pack"] },
  {
    name: "feel",
    title: "How it flies",
    sections: ["gains", "gains-second", "rates", "rates-second", "filters"],
  },
  {
    name: "rest",
    title: "All the rest",
    sections: ["video", "recorder", "lights", "finder", "camera"],
  },
];

/** The stage of a section; what is in none is put back last. */
export function stageOf(section: string): string {
  const base = section.replace(/\/.*/, "");
  return STAGES.find(({ sections }) => sections.includes(base))?.name ?? "rest";
}

/** Settings of those sections that say what a part is, or stand on another part: no board holds them. */
const OF_PARTS: Readonly<Record<string, readonly string[]>> = {
  pack: [
    "chemistry",
    "parallel",
    "storage-at",
    "discharge-rating",
    "cell-resistance",
    "hover-current",
    "full-current",
    "pack-mass",
    "hover-throttle",
    "plug",
    "bought-on",
  ],
  link: ["receiver", "antennas", "region", "band"],
  motors: ["kv", "esc-rating"],
  ports: ["cable-powers"],
  video: [
    "signal",
    "signal-width",
    "spare-frequency",
    "polarisation",
    "viewer-polarisation",
    "camera-picture",
    "viewer-grid",
    "frame-rate",
    "region",
    "set-by",
  ],
  camera: ["tilt", "uptilt", "view-angle", "low-light", "delay", "recording", "channels-used"],
  recorder: ["space"],
  rates: ["note"],
  "rates-second": ["note"],
};

/** Whether a board may hold what a line of a script says. A named pack is the pilot's own. */
export function isOfBoard(section: string, name: string): boolean {
  if (section === "frame") return name === "motors";
  const isKnown = STAGES.some(({ sections }) => sections.includes(section));
  return isKnown && OF_PARTS[section]?.includes(name) !== true;
}
