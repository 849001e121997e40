/** What is to be expected of a hover, how it is worked out, and how far to trust it. */
import type { DialectPage } from "../dialect/example.ts";

export const hoverPage: DialectPage = {
  name: "bench-hover",
  title: "The hover, roughly",
  parts: [
    `
*throttle and current in hover, as mass, propellers, motors and pack make them likely*

Where a script says mass, number of motors, propeller (diameter, pitch, blades), chemistry and cells, Fettle works out which current to expect in hover, and with the kv of the motors which throttle. The result stands in the hovers of \`hover-throttle\` and \`hover-current\`, among the numbers of the panel and on the bench list, always as a range, and the rule \`hover-doubtful\` tells of a figure of the script that lies more than half again beyond it: then one of the figures is likely to be a slip, of a digit, a unit or a factor.

## How

- Each propeller carries its share of the weight: mass times 9.80665 m/s² over the number of motors.
- Turns a second, from T = C · ρ · n² · D⁴ with air of 1.225 kg/m³ (standard atmosphere at sea level). C is 0.0427 + 0.144 times pitch over diameter for two blades (Budinger, Reysset, Ochotorena and Delbecq, “Scaling laws and similarity models for the preliminary design of multirotor drones”, Aerospace Science and Technology 98, 2020). For more blades it grows with their number to the power of 0.8, which is a figure of this project.
- Throttle: these turns over kv times the nominal volts, with the motor turning at 80 to 95 % of its unloaded speed (common practice, no source), and C right within a quarter.
- Power in the air, by momentum theory: P = T · √(T / (2 · ρ · A)), A being the area that a propeller sweeps.
- Current: that power over volts, over what the propeller makes of it (a figure of merit of 0.40 to 0.65: from 0.40 to 0.52 measured on a research propeller of 9 in, Deters, Ananda and Selig, AIAA 2014-2151; about 0.65 by the fits above) and over what motor and controller make of it (60 to 85 %; common practice, no source). Up to 3 in both are worse: from 0.30 and 45 %, figures of this project. What camera, transmitter and board draw is added: \`bench.rest-current\` where it was read, else anything up to 8 W.

## How far to trust it

On craft that fly, the throttle that their pilots read lay between two thirds and five quarters of the middle of the range, and the current between two thirds and twice. So a figure within the range proves nothing, and one just outside it neither: weigh the craft, read throttle and current in a calm hover, and believe those.

Nothing is claimed of craft with rings round their propellers, with propellers above one another, or with a pitch below a quarter or above 1.1 of the diameter, as no published figure was found that holds for them; nor of height, heat, wind and forward flight. A named pack is judged by its own cells, and by its own mass where both masses are said.
`,
  ],
};
