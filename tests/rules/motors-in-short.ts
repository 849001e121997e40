/** Craft with motors, in short: for tables of many. */

const SHORT: Readonly<Record<string, string>> = {
  fl: "front-left",
  fr: "front-right",
  rl: "rear-left",
  rr: "rear-right",
  f: "front",
  r: "rear",
  left: "left",
  right: "right",
  lf: "left-front",
  lr: "left-rear",
  rf: "right-front",
  "r-r": "right-rear",
  cw: "clockwise",
  acw: "anticlockwise",
};

/** “rl cw 3” as “place rear-left direction clockwise output 3”; “u-fl” is the place under front-left. */
function motor(text: string): string {
  return text
    .split(" ")
    .map((word) => {
      if (/^\d/.test(word)) return `output ${word}`;
      if (word === "cw" || word === "acw") return `direction ${SHORT[word]}`;
      return `place ${word.startsWith("u-") ? `under-${SHORT[word.slice(2)]}` : (SHORT[word] ?? word)}`;
    })
    .join(" ");
}

/** “4 true-x props-in: rl acw, fl cw, …”: number, layout and spin as far as they are said, and the motors from the first. */
export function craftOf(text: string): string {
  const [frame = "", motors = ""] = text.split(": ");
  const lines = frame.split(" ").map((word) => {
    if (/^\d+$/.test(word)) return ["frame", `motors ${word}`];
    if (word.startsWith("props-")) return ["motors", `spin ${word}`];
    return ["frame", word === "" || word === "-" ? "" : `arm-layout ${word}`];
  });
  const each = motors === "" ? [] : motors.split(", ");
  const numbered = each.flatMap((one, i) => (one === "-" ? [] : [`  motor${i + 1} ${motor(one)}`]));
  const of = (section: string) => lines.filter(([of]) => of === section).map(([, line]) => `  ${line}`);
  return ['craft "Jug"', "frame", ...of("frame"), "motors", ...of("motors"), ...numbered, ""].join("\n");
}
