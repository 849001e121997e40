/** The display over the picture: its grid, what it warns of, and (in elements.ts) its elements. */
import { meaning, openCategory, practice } from "../sources.ts";
import type { SectionSpec } from "../specs.ts";

const dots = "from memory: the overlay chip shifts its text by -32 to 31 dots";
const lines = "from memory: the overlay chip's five bits move its text from 16 lines up to 15 down";

export const osd: SectionSpec = {
  name: "osd",
  what: "The text and figures laid over the camera's picture, and the cell in which each of them stands.",
  why: "In the air it is the only instrument panel there is: what is not on it the pilot does not know, and what is badly placed hides the very thing one is flying towards. Volts, the link, the alerts and a clock come first; each further element has to be worth the piece of picture that it covers.",
  words: ["on-screen display", "screen layout", "what I see in the goggles", "text over the picture", "osd position"],
  holds: "places",
  in: ["craft", "layer"],
  settings: [
    {
      name: "grid",
      types: [
        { is: "size", mostColumns: 64, mostRows: 32 },
        {
          is: "choice",
          choices: [
            { word: "pal", what: "An analogue picture of 625 lines: 30 columns by 16 rows." },
            { word: "ntsc", what: "An analogue picture of 525 lines: 30 columns by 13 rows." },
          ],
        },
      ],
      kind: "hardware",
      what: "How many columns and rows of characters the display has.",
      why: "The picture's maker decides it, not taste: an overlay chip draws 30 columns and 13 or 16 rows, a digital link whatever its viewer was built for. Set a grid larger than the real one and the elements at the right and the bottom are simply not drawn; set a smaller one and everything huddles in a corner while the rest of the picture stays empty.",
      related: ["video.viewer-grid", "video.signal", "osd.picture"],
      words: ["columns and rows", "screen size in characters", "resolution of the text", "how many lines of text"],
    },
    {
      name: "picture",
      types: [
        {
          is: "choice",
          choices: [
            { word: "4:3", what: "Four wide to three high, the shape of most analogue cameras and box goggles." },
            { word: "16:9", what: "Sixteen wide to nine high, the shape of wide screens and digital links." },
          ],
        },
      ],
      kind: "hardware",
      what: "The shape of the picture as the pilot's viewer shows it; if it is not set, it is drawn as the camera's, else 16:9 for a digital link and 4:3 for any other.",
      why: "The same cells are squeezed or stretched to fill this shape, and how much of the edge a viewer cuts off depends on it too. Set wrongly, the drawing looks tidier than the goggles will: text that seemed safely inside ends under the rim of the lenses, or a neat gap turns into a hole.",
      related: ["video.camera-picture", "osd.grid"],
      words: ["aspect ratio", "widescreen", "shape of the screen", "picture stretched"],
    },
    {
      name: "pilot-name",
      types: [{ is: "text", longest: 20 }],
      kind: "taste",
      what: "The text that the element `pilot` shows: a name or call sign.",
      why: "Spectators who share the picture, and whoever finds a lost recording, see at once who is flying; with an amateur licence the call sign may be a duty. A long name eats a row that the pack's volts could use, and a full name with a telephone number travels with every shared clip.",
      related: ["pilot", "craft"],
      words: ["call sign", "nickname on screen", "my name in the picture"],
    },
    {
      name: "alert-on",
      types: [
        {
          is: "list",
          of: {
            is: "choice",
            choices: [
              { word: "low-pack", what: "The pack is at its warning or its landing volts." },
              { word: "used-up", what: "More charge has been taken out than the pack section allows." },
              { word: "weak-link", what: "Too few of the handset's packets arrive." },
              { word: "weak-signal", what: "The received signal strength is near the receiver's limit." },
              { word: "no-fix", what: "Satellites were there and are gone, or not enough of them." },
              { word: "hot-esc", what: "A motor controller is hotter than the figure set for it." },
              { word: "hot-board", what: "The flight board itself is hotter than the figure set for it." },
              { word: "recorder-full", what: "The flight recorder has no room left." },
              { word: "high", what: "The craft is above the height set for a warning." },
              { word: "far", what: "The craft is beyond the distance set for a warning." },
              { word: "long-flight", what: "The flight has lasted as long as was set for a warning." },
              { word: "cannot-arm", what: "Something stands between the craft and arming, and what it is." },
            ],
          },
          fewest: 1,
          most: 12,
        },
      ],
      kind: "safety",
      what: "Which troubles the element `alerts` may show.",
      why: "A warning is worth something only while it is rare. With everything switched on a bench session flashes without end and the pilot learns to look past it; with too little switched on the first sign of an empty pack is a craft that stops flying. Low pack, weak link and what prevents arming belong on nearly every list.",
      related: ["alerts", "pack.warn-at", "osd.link-alert", "osd.heat-alert"],
      words: ["which warnings", "switch off a warning", "too many messages", "flashing text"],
    },
    {
      name: "link-alert",
      types: [
        {
          is: "quantity",
          unit: "%",
          min: { at: 0, source: meaning },
          max: { at: 100, source: meaning },
          usual: [{ from: 30, to: 95, source: practice }],
        },
      ],
      kind: "safety",
      what: "The share of packets arriving below which the display warns of the link.",
      why: "It should speak up while there is still time to turn back. Set near 100 % it cries at every tree and is ignored by the third; set near the bottom it speaks in the same second in which the receiver gives up. Links that send very many packets each second fly well on half of them, slow long-range ones do not.",
      related: ["link-quality", "link.packet-rate", "link.lost-after"],
      words: ["link quality warning", "warn before signal loss", "range warning"],
    },
    {
      name: "signal-alert",
      types: [
        {
          is: "quantity",
          unit: "dBm",
          min: { at: -140, source: "from memory: below what the slowest long-range receivers still make out" },
          max: { at: 0, source: practice },
          usual: [{ from: -130, to: -60, source: practice }],
        },
      ],
      kind: "safety",
      what: "The received strength, in decibels over a milliwatt, below which the display warns.",
      why: "A receiver has a floor below which it hears nothing, different for each packet rate: warn some 10 dB above it, and in the open the craft is then at about a third of the distance at which it would go deaf. Trees and bodies eat those 10 dB in one step, so nearer to the floor the warning comes too late, and under it never; one at -60 dBm warns over the take-off spot.",
      related: ["signal", "link.packet-rate", "osd.link-alert"],
      words: ["signal strength warning", "receiver sensitivity", "weak radio warning"],
    },
    {
      name: "height-alert",
      types: [
        {
          is: "quantity",
          unit: "m",
          min: { at: 1, source: practice },
          max: { at: 10000, source: practice },
          usual: [{ from: 5, to: 120, source: `${practice} below; ${openCategory} above` }],
        },
      ],
      kind: "safety",
      what: "The height above the starting place that brings up a warning in the picture.",
      why: "Seen through a wide lens everything beyond sixty metres looks alike, so a pilot who climbs for a dive easily passes the legal ceiling. A warning well below it leaves room for the craft's momentum and the barometer's drift; one set at the ceiling tells only that the rule is already broken. Over falling ground the height below the craft is more than this figure knows.",
      hazard:
        "The ceiling is 120 m over the ground in the open category of the EU (UAS.OPEN.010(2)) and 400 ft for recreation in the United States (49 USC 44809(a)(6)); local rules have the last word.",
      related: ["height", "sensors.barometer", "navigation.return-height"],
      words: ["altitude warning", "ceiling", "legal height", "too high"],
    },
    {
      name: "distance-alert",
      types: [
        {
          is: "quantity",
          unit: "m",
          min: { at: 1, source: practice },
          max: { at: 100000, source: practice },
          usual: [{ from: 20, to: 10000, source: practice }],
        },
      ],
      kind: "safety",
      what: "The distance from home at which the display warns.",
      why: "It is a reminder of the way back, which against the wind can cost twice what the way out did. Chosen as far as an observer can still see the craft it keeps one honest; chosen as far as the radio reaches it warns where nothing can be done about it any more. Too short, it flashes for the whole of a normal flight.",
      hazard:
        "Whoever flies by the picture needs somebody beside them who keeps the craft in unaided sight: many laws ask for it, and it is how one sees the other aircraft.",
      needs: [
        {
          port: "gps",
          while: [{ setting: "osd.alert-on", has: "far" }],
          reason: "Distance from home is measured by satellite receiver.",
        },
      ],
      related: ["home-distance", "navigation.start-distance"],
      words: ["distance warning", "too far away", "range limit"],
    },
    {
      name: "flight-time-alert",
      types: [
        {
          is: "quantity",
          unit: "min",
          min: { at: 0.1, source: practice },
          max: { at: 600, source: practice },
          usual: [{ from: 0.5, to: 60, source: practice }],
        },
      ],
      kind: "taste",
      what: "The time armed after which the display reminds the pilot.",
      why: "A plain clock is the one gauge that needs no calibration, so it makes a good second opinion to the volts: someone who knows that a pack lasts four minutes sets three. A figure longer than the pack's life is decoration; one much shorter teaches the pilot to ignore it, and a worn or cold pack is still empty before either.",
      related: ["flight-time", "pack.warn-after", "pack.capacity"],
      words: ["timer", "flight timer alarm", "countdown", "remind me to land"],
    },
    {
      name: "heat-alert",
      types: [
        {
          is: "quantity",
          unit: "degC",
          min: { at: 20, source: practice },
          max: { at: 150, source: "from memory: silicon power parts are rated to 150 degC at the junction" },
          usual: [{ from: 60, to: 115, source: practice }],
        },
      ],
      kind: "hardware",
      what: "How hot a motor controller may grow before the display says so.",
      why: "Controllers grow hot long before they fail: a bent bell, a wrong propeller or a tune full of vibration shows here first. The sensor sits beside the transistors and reads lower than they are, so a warning close to their rating comes too late; one at 60 degC comes on every summer day, with nothing wrong.",
      needs: [
        {
          port: "esc-data",
          while: [{ setting: "osd.alert-on", has: "hot-esc" }],
          or: [{ setting: "motors.rpm-feedback", is: "yes" }],
          reason:
            "A controller's temperature reaches the board over its data wire or with its answers on the signal wire.",
        },
      ],
      related: ["esc-heat", "motors.esc-heat-limit"],
      words: ["overheating warning", "esc temperature alarm", "too hot"],
    },
    {
      name: "white-level",
      types: [
        {
          is: "quantity",
          unit: "%",
          min: { at: 50, source: practice },
          max: { at: 130, source: practice },
          usual: [
            { from: 80, to: 120, source: "from memory: the overlay chip of analogue pictures offers 80 to 120 %" },
          ],
        },
      ],
      kind: "taste",
      what: "How bright the characters are, against the white of an analogue picture.",
      why: "Against snow or a bright sky the text needs to outshine the picture, at dusk it should not dazzle. Too bright, and the strokes bleed to the right in a cheap screen, or a recorder clips them; too dim, and a white digit over a white cloud is gone just when one looks up to read it.",
      needs: [{ setting: "video.signal", is: "analogue", reason: "A digital link draws its text in the viewer." }],
      related: ["osd.grid", "video.signal"],
      words: ["text brightness", "cannot read the text", "contrast of the letters"],
    },
    {
      name: "nudge-right",
      types: [
        {
          is: "integer",
          min: { at: -32, source: dots },
          max: { at: 31, source: dots },
        },
      ],
      default: "0",
      kind: "hardware",
      what: "By how many dots all the text is shifted to the right in an analogue picture.",
      why: "Cameras begin each line a little earlier or later, so that the whole layout sits off centre through no fault of its own. Shift it until both margins match. A large shift pushes the columns of one side into the part of the line that no screen shows, and it hides a layout that is itself lopsided.",
      needs: [{ setting: "video.signal", is: "analogue", reason: "Only an overlay chip can shift its text by dots." }],
      related: ["osd.nudge-down", "osd.grid"],
      words: ["text off centre", "horizontal offset", "layout too far left"],
    },
    {
      name: "nudge-down",
      types: [
        {
          is: "integer",
          min: { at: -16, source: lines },
          max: { at: 15, source: lines },
        },
      ],
      default: "0",
      kind: "hardware",
      what: "By how many picture lines all the text is moved down in an analogue picture.",
      why: "When the top row is cut in half by the goggles although the rows fit, a few lines bring it back. Moving too far costs the bottom row instead, which usually holds the volts: look at both edges with the goggles on the face, not on a monitor that shows more.",
      needs: [{ setting: "video.signal", is: "analogue", reason: "Only an overlay chip can move its text by lines." }],
      related: ["osd.nudge-right", "osd.grid"],
      words: ["top row cut off", "vertical offset", "layout too high"],
    },
    {
      name: "landing-summary",
      types: [{ is: "yes-no" }],
      kind: "taste",
      what: "Whether a page of figures replaces the layout after disarming.",
      why: "Lowest volts, highest current and weakest link of a flight say more about a craft than a glance in mid-air, and they cost nothing to read on the ground. Pilots who disarm to turn the craft over after a crash may prefer the plain layout, since the page covers the picture just when they want to see how the craft lies.",
      related: ["top-speed", "travelled", "turtle"],
      words: ["statistics after the flight", "post-flight page", "maximum values"],
    },
  ],
};

export const osdSecond: SectionSpec = {
  name: "osd-second",
  what: "A second page of the display, shown while the mode `osd-second` is on.",
  why: "One page for flying and one for finding out: coordinates, temperatures and satellite figures need not stand in the way of a race line, yet are a switch away when something looks wrong.",
  words: ["second screen page", "other layout", "switch between layouts", "clean screen"],
  holds: "places",
  in: ["craft", "layer"],
  like: "osd",
  without: ["grid", "picture"],
  settings: [],
};
