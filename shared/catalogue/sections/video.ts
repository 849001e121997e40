/** The video link, from the camera to the goggles. */
import { europe58, meaning, practice } from "../sources.ts";
import type { SectionSpec, SimpleType } from "../specs.ts";

const polarisations: SimpleType[] = [
  {
    is: "choice",
    choices: [
      { word: "left", what: "Circular, turning to the left as they go away." },
      { word: "right", what: "Circular, turning to the right as they go away." },
      { word: "linear", what: "Straight: a rod or a dipole." },
    ],
  },
];
const crossed =
  "Aerials that turn against each other lose some 20 dB: the picture is gone at a tenth of the distance. Change one of the two.";

export const video: SectionSpec = {
  name: "video",
  what: "The video link: its kind, its channel, its transmit power, and the shape of what it shows.",
  why: "Losing the picture is losing the craft, and being on somebody else's channel is losing theirs. Whoever flies beside you needs these lines before you plug in.",
  words: ["vtx", "video transmitter", "camera link", "goggles", "picture breaks up"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "signal",
      types: [
        {
          is: "choice",
          choices: [
            {
              word: "analogue",
              what: "A television picture on a carrier: grows noisy with distance, and never waits.",
            },
            { word: "digital", what: "Coded pictures: clear until the link is too weak, then late, frozen or gone." },
          ],
        },
      ],
      kind: "hardware",
      what: "Whether the picture travels as an analogue or as a digital signal.",
      why: "It decides which viewer can be used, which grid the display has, and how the end of the range feels. An analogue picture warns by its snow for a long time; a digital one looks perfect and then stops, so on it the link figures have to be watched instead. Pilots who fly together need to know it too: the two disturb each other differently.",
      related: ["osd.grid", "video.viewer-grid", "video.frequency"],
      words: ["analog or digital", "kind of video link", "hd or analogue"],
    },
    {
      name: "frequency",
      types: [
        {
          is: "quantity",
          unit: "MHz",
          min: { at: 400, source: practice },
          max: { at: 7000, source: practice },
          usual: [{ from: 1080, to: 5950, source: practice }],
        },
      ],
      kind: "taste",
      what: "The carrier on which the video transmitter sends.",
      why: "A channel is a place in the air that nobody else may stand in: an analogue signal is about 18 MHz wide, and with several pilots the mixtures of their carriers fall on further channels. Too near a neighbour's, each picture breaks up as its pilot flies behind the other craft; too near the edge of the band, the signal spills over a border that the law draws.",
      hazard: "Switching on a transmitter on the channel of a craft in the air takes its pilot's picture away.",
      related: ["video.region", "video.channel-label", "video-channel", "video.spare-frequency"],
      words: ["video channel", "which channel", "interference with friends", "megahertz"],
    },
    {
      name: "signal-width",
      types: [
        {
          is: "quantity",
          unit: "MHz",
          min: { at: 0.1, source: practice },
          max: { at: 200, source: practice },
          usual: [{ from: 1, to: 80, source: practice }],
        },
      ],
      kind: "taste",
      what: "How much of the band a digital picture takes up, from one edge to the other.",
      why: "A wide signal carries a sharper picture and needs room: fewer pilots fit beside one another, and at the edge of a band half of it stands outside. A narrow one reaches further on the same power, because less noise comes in with it, and pays with detail or with delay. The viewer has to be set to the same.",
      needs: [{ setting: "video.signal", is: "digital", reason: "An analogue picture is always about 18 MHz wide." }],
      related: ["video.frequency", "video.region"],
      words: ["bandwidth", "channel width", "20 mhz mode", "narrow or wide picture signal"],
    },
    {
      name: "spare-frequency",
      types: [
        {
          is: "quantity",
          unit: "MHz",
          min: { at: 400, source: practice },
          max: { at: 7000, source: practice },
          usual: [{ from: 1080, to: 5950, source: practice }],
        },
      ],
      kind: "taste",
      what: "The carrier this craft moves to when the first one is taken.",
      why: "Agreed at home, it saves the shouting at the field when a seventh pilot turns up. It helps only if it is well clear of everyone else's first choice, of their spare ones as well, and if the viewer's antenna suits it; the neighbouring channel is no spare.",
      related: ["video.frequency"],
      words: ["second channel", "backup channel", "channel is taken"],
    },
    {
      name: "channel-label",
      types: [{ is: "text", longest: 12 }],
      kind: "taste",
      what: "What the viewer and the pilots call this frequency.",
      why: "People call out a name across a field, not four digits. Write down the name that your own viewer shows: channel tables differ between makers, and two pilots who agree on a name may sit on two frequencies, or worse, one who hears a different name may sit on yours.",
      related: ["video.frequency", "video-channel"],
      words: ["channel name", "name of the channel", "band letter"],
    },
    {
      name: "polarisation",
      types: polarisations,
      kind: "hardware",
      what: "How the waves of the craft's video aerial turn.",
      why: "Aerials at both ends have to turn the same way. Left against right loses some 20 dB, nine tenths of the distance; a straight aerial against a turning one loses 3 dB, whichever way it turns, and more against another straight one that stands across. Turning waves also drop the echo from walls, which comes back the other way round, so the picture tears less. Two pilots on near channels disturb each other less with one left and one right.",
      needs: [
        { word: "left", setting: "video.viewer-polarisation", not: "right", misleads: true, reason: crossed },
        { word: "right", setting: "video.viewer-polarisation", not: "left", misleads: true, reason: crossed },
      ],
      related: ["video.viewer-polarisation", "video.power", "video.frequency"],
      words: [
        "antenna polarisation",
        "left or right hand aerial",
        "circular antenna",
        "linear antenna",
        "lhcp",
        "rhcp",
      ],
    },
    {
      name: "viewer-polarisation",
      types: polarisations,
      kind: "taste",
      what: "How the waves of the viewer's aerials turn.",
      why: "It belongs to the goggles and not to the craft, so it is said once, in a layer of one's own. Where the viewer carries two kinds of aerial, say the one that fits the craft: the other then only hears echoes. Wrong, a craft that was built to match looks like a mistake, or one that does not match looks right until it is fifty metres away.",
      related: ["video.polarisation", "video.viewer-grid"],
      words: ["antenna of the goggles", "goggles left or right", "picture weak with new antenna"],
    },
    {
      name: "power",
      types: [
        {
          is: "quantity",
          unit: "mW",
          min: { at: 0, source: meaning },
          max: { at: 25000, source: practice },
          usual: [
            { from: 1, to: 1200, when: { propellerIn: { to: 3.2 } }, source: practice },
            { from: 1, to: 3000, source: practice },
          ],
        },
        {
          is: "choice",
          choices: [{ word: "off", what: "Nothing is sent: the craft is flown by eye." }],
        },
      ],
      kind: "hardware",
      what: "What the video transmitter sends in flight, or `off`.",
      why: "Four times the power gives twice the distance in the open, and a great deal of heat with it: a strong transmitter on a craft that stands still in the sun shuts itself down within minutes. Among friends little power is a kindness, since a strong carrier floods the viewers beside it. Too little, and the picture goes at the first wall between you and the craft.",
      hazard:
        "Never let it transmit without its antenna: the power has nowhere to go and burns the output stage. Without airflow it overheats, so keep bench sessions short or the power low. How much may be sent, and where, is for local law and the licence held.",
      related: ["video.power-steps", "video.power-disarmed", "video.region", "video-power"],
      words: ["vtx power", "transmit power", "milliwatts", "more video range", "picture is weak"],
    },
    {
      name: "power-steps",
      types: [
        {
          is: "list",
          of: {
            is: "quantity",
            unit: "mW",
            min: { at: 0, source: meaning },
            max: { at: 25000, source: practice },
            usual: [{ from: 0, to: 3000, source: practice }],
          },
          fewest: 1,
          most: 8,
        },
      ],
      kind: "hardware",
      what: "The powers that this transmitter can be set to, from low to high.",
      why: "A board asks for a step by its number, and only the transmitter's maker knows what that number means in milliwatts. With a table that belongs to another transmitter the lowest step may be the strongest one, or a step does nothing at all. Labels are round figures: what leaves the antenna is often less at the top and more at the bottom.",
      related: ["video.power", "video-low", "video-high"],
      words: ["power levels", "which number is which power", "which power settings exist"],
    },
    {
      name: "power-disarmed",
      types: [
        {
          is: "quantity",
          unit: "mW",
          min: { at: 0, source: meaning },
          max: { at: 25000, source: practice },
          usual: [{ from: 0, to: 400, source: practice }],
        },
        {
          is: "choice",
          choices: [
            { word: "lowest", what: "The first of the transmitter's steps, whatever it is." },
            { word: "same", what: "The power of flight, armed or not." },
            { word: "off", what: "Nothing is sent until the craft is armed." },
          ],
        },
      ],
      kind: "safety",
      what: "What the video transmitter sends while the craft is disarmed.",
      why: "On the ground there is no wind over the transmitter and somebody else may be in the air on the next channel: little power spares both. Too little has a price after a crash, when the picture out of the grass is what leads to the craft. With `same` it runs at full heat from the moment the pack goes in; with `off` the goggles are dark until the motors are live, so look at the picture once before the propellers go on.",
      related: ["video.power", "video-low", "video.power-lost"],
      words: ["power on the ground", "vtx hot on the bench", "quiet while disarmed"],
    },
    {
      name: "power-lost",
      types: [
        {
          is: "quantity",
          unit: "mW",
          min: { at: 0, source: meaning },
          max: { at: 25000, source: practice },
          usual: [{ from: 1, to: 3000, source: practice }],
        },
        {
          is: "choice",
          choices: [{ word: "same", what: "Whatever it sent before the radio link went." }],
        },
      ],
      kind: "taste",
      what: "What the video transmitter sends once the radio link has been lost.",
      why: "A craft lying in a field beyond a hedge can be found by its picture and by the direction its signal comes from, which argues for full power. But lying still it cools badly, and a transmitter that cooks itself in ten minutes helps nobody find it after the eleventh.",
      related: ["video.power", "failsafe.then", "finder.after-lost"],
      words: ["find a lost craft by video", "full power after crash"],
    },
    {
      name: "camera-picture",
      types: [
        {
          is: "choice",
          choices: [
            { word: "4:3", what: "Four wide to three high: the whole of most small image sensors." },
            { word: "16:9", what: "Sixteen wide to nine high: wider, with less above and below." },
          ],
        },
      ],
      kind: "hardware",
      what: "The shape of the picture that the camera sends.",
      why: "It should be the shape the viewer shows. If they differ the world is squeezed or cut: gates look narrower than they are, or the top of the picture is gone, and with it the row of text that stood there. Many cameras can be switched, and a camera's wide picture is often the tall one with its top and bottom cut away.",
      related: ["osd.picture", "camera.view-angle"],
      words: ["camera aspect ratio", "picture looks squashed", "wide or tall picture"],
    },
    {
      name: "standard",
      types: [
        {
          is: "choice",
          choices: [
            { word: "pal", what: "625 lines, 25 whole pictures a second." },
            { word: "ntsc", what: "525 lines, close to 30 whole pictures a second." },
          ],
        },
      ],
      kind: "hardware",
      what: "The television standard of an analogue camera.",
      why: "One has more lines, the other more pictures a second, and each has its fans; what matters is that camera, overlay and viewer agree. If the overlay expects the other one the text rolls or vanishes, or its bottom three rows fall outside the picture.",
      needs: [{ setting: "video.signal", is: "analogue", reason: "A digital picture follows no television standard." }],
      related: ["osd.grid"],
      words: ["pal or ntsc", "video norm", "text is rolling"],
    },
    {
      name: "frame-rate",
      types: [
        {
          is: "quantity",
          unit: "Hz",
          min: { at: 10, source: practice },
          max: { at: 480, source: practice },
          usual: [{ from: 25, to: 144, source: practice }],
        },
      ],
      kind: "taste",
      what: "How many pictures a second a digital link sends.",
      why: "More pictures follow a fast craft more smoothly and arrive a few milliseconds sooner, but each then gets a smaller share of what the link can carry, so leaves and gravel turn to mush. Few pictures look sharp while hovering and make a fast turn hard to place.",
      needs: [{ setting: "video.signal", is: "digital", reason: "An analogue standard fixes its own picture rate." }],
      related: ["video.signal", "video.standard"],
      words: ["frames per second", "fps", "video latency", "choppy picture"],
    },
    {
      name: "viewer-grid",
      types: [
        { is: "size", mostColumns: 64, mostRows: 32 },
        {
          is: "choice",
          choices: [{ word: "same", what: "The viewer draws exactly the grid that the craft sends." }],
        },
      ],
      kind: "hardware",
      what: "The grid of characters that the viewer draws, or `same`.",
      why: "With a digital link the craft sends text and the viewer draws it, each with an opinion on how many columns there are. Where they differ, whatever lies beyond the viewer's grid is lost without a word, and a centred figure is no longer central. State it for the goggles in use; lending the craft to a friend with others is when it shows.",
      related: ["osd.grid", "video.signal"],
      words: ["goggle text size", "goggles cut off the text", "viewer columns"],
    },
    {
      name: "region",
      types: [
        {
          is: "choice",
          choices: [
            {
              word: "europe",
              what: `Licence-free use in Europe: 5725 to 5875 MHz (${europe58}), at 25 mW e.i.r.p. (ERC/REC 70-03 annex 1, from memory).`,
            },
            {
              word: "usa",
              what: "Licence-free use in the United States (47 CFR 15.247 and 15.249): at 5.8 GHz 0.75 mW, or up to 1 W for digital signals below 5850 MHz.",
            },
            {
              word: "amateur-region-1",
              what: "A licensed amateur in Europe, Africa, the Middle East or northern Asia: 5650 to 5850 MHz.",
            },
            { word: "amateur-region-2", what: "A licensed amateur in the Americas: 5650 to 5925 MHz." },
            {
              word: "amateur-region-3",
              what: "A licensed amateur in southern and eastern Asia or in Oceania: 5650 to 5850 MHz.",
            },
          ],
        },
      ],
      kind: "safety",
      what: "The rules under which the video transmitter is used.",
      why: "Which frequencies are free, and how much may be sent on them, changes at a border and with a licence in the pocket. Saying it lets the frequency and the power be held against those rules; claiming a licence one does not hold only silences the check. Local rules have the last word: they change, and they may ask for more than is known here.",
      related: ["video.frequency", "video.power"],
      words: ["country", "legal frequency", "legal power", "ham licence"],
    },
    {
      name: "set-by",
      types: [
        {
          is: "choice",
          choices: [
            { word: "board", what: "The flight board tells the transmitter over a wire, as the script says." },
            { word: "hand", what: "A button or a switch on the transmitter itself." },
            { word: "viewer", what: "The pilot's viewer chooses, and the craft follows it." },
          ],
        },
      ],
      kind: "hardware",
      what: "Who chooses the video channel and power.",
      why: "Only under `board` do the frequency and power lines here come true by themselves. Set by hand, they are a note of what somebody ought to have pressed, and worth a glance in the viewer before every flight; set by the viewer, the next pilot who looks at your channel may carry it elsewhere.",
      related: ["video.frequency", "video.power", "ports.port1"],
      words: ["video control wire", "channel does not change", "button on the transmitter"],
    },
  ],
};
