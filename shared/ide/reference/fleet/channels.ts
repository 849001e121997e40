/** Which video channels go together, how that is found out, and what no script can know. */

import { LANDS_WITHIN_MHZ } from "../../../numbers/channels.ts";
import { EVEN_CHANNELS_MHZ, MOST_TOGETHER } from "../../../numbers/flight.ts";
import { ANALOGUE_WIDTH_MHZ } from "../../../numbers/radio.ts";
import type { DialectPage } from "../dialect/example.ts";

export const channels: DialectPage = {
  name: "channels-together",
  title: "Channels together",
  parts: [
    `
*analogue pictures side by side*

Which craft can be flown at the same time, whose picture disturbs whose, and the smallest change of channels by which nobody's does.

It is looked for among craft that you name: \`fettle check --together craft/jug.fettle craft/saucer.fettle\`, \`fettle fleet --together\` with the same names, or the setting \`fettle.together\` of the editor, a list of files or of names of craft. Each of them that is disturbed has a finding, \`fleet-video\`, on its frequency. Of craft that are not named nothing is said: who flies when is not in a script.

\`\`\`fettle
craft "Jug"

video
  signal           analogue
  frequency        5769 MHz
  # agreed with the others for the days on which somebody is on ours
  spare-frequency  5843 MHz
  region           europe
\`\`\`

A craft whose picture is \`digital\`, or of which nobody says the kind or the frequency, is disturbed by nobody here, and disturbs nobody; \`video.standard\` tells the kind as well, since only an analogue picture follows one. With \`power off\` nothing is sent.

## What disturbs

**Overlap.** An analogue picture is about ${ANALOGUE_WIDTH_MHZ} MHz wide (common practice). Two whose frequencies are less than that apart stand in one another.

**Mixtures.** Where two carriers meet in a transmitter or in a receiver, further ones come of them that nobody sends. Those of the third order lie near the carriers: 2a − b of any two, and a + b − c of any three. A guide to wireless microphones works an example: 200, 195 and 187 MHz give 208, 192, 182, 205, 190, 213, 174, 203 and 179 MHz. There are n²(n − 1)/2 of them: 2 for two craft, 9 for three, 24 for four, 50 for five, 90 for six. One that falls within ${LANDS_WITHIN_MHZ} MHz of another craft's frequency, half a picture's width, counts as seen in that picture; that bound is our own, as no receiver ends sharply. Two craft alone never disturb themselves by their mixtures.

Eight channels are common, ${EVEN_CHANNELS_MHZ[0]} MHz and every 37 MHz up to ${EVEN_CHANNELS_MHZ.at(-1)} MHz. They are evenly spaced, so of any three neighbours each outer one is hit exactly: 2 × 5769 − 5732 = 5806.

## The plan

Of all ways in which nothing is left in the way, the plan is the one that changes the fewest craft; of these, the one that sends the fewest to a frequency that nobody named; then the one that uses most of the craft's own spare frequencies; then the one with the smallest sum of MHz moved; then the one whose largest move is smallest; in the end, those named first stay. It is found by an exact search, so there is no better one among the frequencies that are looked at:

- the craft's own \`spare-frequency\`;
- every frequency, and every spare one, that one of the craft says, and the eight channels above: their carrier must lie in a band of the craft's \`region\`;
- any whole MHz, with both edges of the picture inside the band. See first that viewer and transmitter have that frequency.

A craft that says no region goes by those that the others say, since they fly at one place; where nobody says any, whole MHz are looked at only between the first and the last of the eight. No craft is sent further than a twentieth of its frequency, as a transmitter is built for one band. Digital pictures, and those of which nobody says the kind, stay where they are, and nobody is sent into one: as wide as \`signal-width\` says, or else at least onto its carrier. Six and more craft can take a second or two to search: an editor looks for some hundredths of a second, so that typing never waits, and then says that \`fettle fleet --together\` looks longer. What you may send, and where, is for local rules and your licence.

## How many go together

With these figures, exactly, in whole MHz:

| from | to | pictures |
| --- | --- | --- |
| 5734 MHz | 5866 MHz | 4 |
| 5659 MHz | 5841 MHz | 5 |
| 5658 MHz | 5917 MHz | 6 |

The first row is what lies with both edges in 5725–5875 MHz. More craft than have room get no plan, and the finding says how many do; more than ${MOST_TOGETHER} are not looked at for one. Then fly fewer at a time, and with the transmitters of the others off.

## What no plan knows

Receivers and transmitters differ: one with a poor filter is disturbed by what another never sees, and the strength of a mixture depends on how near the transmitters stand to each other. Two antennas within arm's reach of one another spoil any plan, and so does one craft with far more power than the rest; so put the pads some metres apart, use \`power-disarmed\`, and send no more than is needed. Other people, and other things, send as well. A plan is a start: look through the band with a viewer before the first pack, and once more with all craft switched on and nobody armed, propellers off. If a picture shows lines or another pilot's picture then, move that one, whatever a plan says.
`,
  ],
};
