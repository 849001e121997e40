/** What pilots type to find a page, with the page that they mean. */

/** Own words as a pilot keeps them. */
export const ownAliases = [
  { word: "squealer", name: "finder" },
  { word: "stay flat", name: "level" },
  { word: "juice left", name: "pack.reserve" },
  { word: "go button", name: "arm" },
];

interface Query {
  readonly typed: string;
  /** KIND/NAME, or several of which any is right. */
  readonly means: string | readonly string[];
  /** It must stand before all others; else among the first five. */
  readonly first?: false;
}

const first = (typed: string, means: Query["means"]): Query => ({ typed, means });
const among = (typed: string, means: Query["means"]): Query => ({ typed, means, first: false });

/** Names as they are written, in every way in which a pilot may write them. */
export const exactQueries: readonly Query[] = [
  first("pack.warn-at", "setting/pack.warn-at"),
  first("warn-at", "setting/pack.warn-at"),
  first("Warn-At", "setting/pack.warn-at"),
  first("warn at", "setting/pack.warn-at"),
  first("warn_at", "setting/pack.warn-at"),
  first("pack warn-at", "setting/pack.warn-at"),
  first("pack", "section/pack"),
  first("arm", "mode/arm"),
  first("ARM", "mode/arm"),
  first("turtle", "mode/turtle"),
  first("pack-volts", "element/pack-volts"),
  first("pack volts", "element/pack-volts"),
  first("rates.roll", "setting/rates.roll"),
  first("gains-second.roll", "setting/gains-second.roll"),
  first("mode-clash", "rule/mode-clash"),
  first("rule/mode-clash", "rule/mode-clash"),
  first("rule mode-clash", "rule/mode-clash"),
  first("element/video-power", "element/video-power"),
  first("rule/video-power", "rule/video-power"),
  first("mode/recorder", "mode/recorder"),
  first("section/recorder", "section/recorder"),
  first("fettle(mode-clash)", "rule/mode-clash"),
  first("syntax", "rule/syntax"),
];

export const unitQueries: readonly Query[] = [
  first("mAh", "unit/mAh"),
  first("V/cell", "unit/V/cell"),
  first("unit/V/cell", "unit/V/cell"),
  first("deg/s", "unit/deg/s"),
  first("%", "unit/%"),
  first("µs", "unit/us"),
  first("degree Celsius", "unit/degC"),
  first("milliampere hour", "unit/mAh"),
  first("microseconds", "unit/us"),
  among("percent", "unit/%"),
  among("grams", "unit/g"),
];

export const wordQueries: readonly Query[] = [
  first("when", "word/when"),
  first("use", "word/use"),
  first("drop", "word/drop"),
  first("handset", "word/handset"),
  first("layer", "word/layer"),
  first("allow", "word/allow"),
  first("language", "word/language"),
  first("always", "word/always"),
];

export const ownWordQueries: readonly Query[] = [
  first("squealer", ["mode/finder", "section/finder"]),
  first("stay flat", "mode/level"),
  first("Stay-Flat", "mode/level"),
  first("juice left", "setting/pack.reserve"),
  among("juice", "setting/pack.reserve"),
  first("lights.glow-delay", "setting/lights.glow-delay"),
  first("glow-delay", "setting/lights.glow-delay"),
];

/** As far as one gets while typing. */
export const partialQueries: readonly Query[] = [
  first("war", "setting/pack.warn-at"),
  first("turt", "mode/turtle"),
  first("pack.wa", "setting/pack.warn-at"),
  among("mode-c", "rule/mode-clash"),
  among("link-q", "element/link-quality"),
  among("low bat", "setting/pack.warn-at"),
  among("return-h", ["mode/return-home", "setting/navigation.return-height"]),
  among("volts", ["element/pack-volts", "unit/V"]),
  among("osd-over", "rule/osd-overlap"),
  among("throttle-l", "setting/rates.throttle-limit"),
];

export const misspeltQueries: readonly Query[] = [
  first("wran-at", "setting/pack.warn-at"),
  first("turtel", "mode/turtle"),
  first("levle", "mode/level"),
  first("link-qualty", "element/link-quality"),
  first("pack-vlots", "element/pack-volts"),
  first("mode-clahs", "rule/mode-clash"),
  first("rule/mod-clash", "rule/mode-clash"),
  among("recoder", ["mode/recorder", "section/recorder"]),
  among("chemestry", "setting/pack.chemistry"),
  among("baterry warning", "setting/pack.warn-at"),
  among("thorttle limit", "setting/rates.throttle-limit"),
  among("failsave", "section/failsafe"),
  among("reciever", ["setting/link.receiver", "section/link"]),
];

export const plainQueries: readonly Query[] = [
  among("low battery warning", "setting/pack.warn-at"),
  among("how do i stop the motors", "mode/arm"),
  among("kill switch", "mode/arm"),
  among("flip over after a crash", "mode/turtle"),
  among("find lost drone", ["mode/finder", "section/finder"]),
  among("blackbox", ["section/recorder", "mode/recorder"]),
  among("battery voltage on screen", "element/pack-volts"),
  among("how high will it fly home", "setting/navigation.return-height"),
  among("number of cells", "setting/pack.cells"),
  among("camera angle", ["element/camera-angle", "setting/camera.uptilt"]),
  among("vtx power", ["setting/video.power", "element/video-power"]),
  among("signal lost", "section/failsafe"),
  among("two elements overlap", "rule/osd-overlap"),
  among("armed at rest", "rule/arm-at-rest"),
  among("what is a layer", "word/layer"),
  among("comments", ["word/comment", "word/comments", "word/note"]),
  among("weight", "setting/frame.mass"),
  among("beeper", ["mode/finder", "section/finder", "setting/finder.sounder"]),
];

/** Words of other tongues that look like ours. */
export const foreignQueries: readonly Query[] = [
  among("batterie", ["section/pack", "element/pack-volts", "element/charge-left"]),
  among("kamera", "section/camera"),
  among("motoren", ["section/motors", "setting/frame.motors"]),
  among("kompass", "setting/sensors.compass"),
  among("frequenz", "setting/video.frequency"),
  among("antenne", ["element/antenna", "setting/link.antennas"]),
];

/** Nothing is meant by them. */
export const emptyQueries: readonly string[] = ["zzzzqqq", "???", "the of and", "🫖", "x".repeat(5000)];
