/** The filters between the gyro and the motors. */
import { meaning, practice } from "../sources.ts";
import type { FieldsType, QuantityType, SectionSpec, SimpleType } from "../specs.ts";
import { bySize } from "../value-types.ts";
import { otherFilters } from "./filters-more.ts";

const order: SimpleType = {
  is: "integer",
  min: { at: 1, source: "by definition: a filter of order 0 is none" },
  max: { at: 2, source: practice },
};

/** The fields of a low-pass: its cutoff frequency and its order. */
export function lowPassFields(usual: QuantityType["usual"]): FieldsType {
  return {
    is: "fields",
    fields: [
      {
        name: "cut",
        types: [
          {
            is: "quantity",
            unit: "Hz",
            min: { at: 1, source: practice },
            max: { at: 4000, source: practice },
            usual,
          },
        ],
        what: "The frequency at which the filter lets half the power through.",
        required: true,
      },
      {
        name: "order",
        types: [order],
        what: "1 falls off gently and delays little; 2 falls off twice as steeply and delays more.",
        default: "1",
      },
    ],
  };
}

/** Where no notch takes out the motors' own noise, the damping bears so much of the cut that it bears otherwise. */
const SHARE_WITHOUT_NOTCH = 0.6;
const dampingCuts = bySize([2.6, 35, 600], [5.6, 30, 500], [8, 20, 350], [null, 12, 250]).flatMap((band) => [
  {
    ...band,
    to: Math.round((band.to ?? 0) * SHARE_WITHOUT_NOTCH),
    when: { ...band.when, notches: "none" as const },
  },
  band,
]);

const notchWidth: SimpleType = {
  is: "quantity",
  unit: "Hz",
  min: { at: 1, source: practice },
  max: { at: 2000, source: practice },
  usual: [{ from: 5, to: 500, source: practice }],
};

export const filters: SectionSpec = {
  name: "filters",
  what: "What is taken out of the gyro's signal, and of what is computed from it, before it reaches the motors.",
  why: "Every filter trades vibration for delay: less noise reaches the motors, and each correction comes later. Too little filtering burns motors, too much makes a craft that wobbles because it always answers late.",
  words: ["filtering", "noise", "vibration", "hot motors", "low-pass and notch"],
  holds: "settings",
  in: ["craft", "layer"],
  settings: [
    {
      name: "smooth-gyro",
      types: [lowPassFields(bySize([5.6, 40, 1200], [8, 25, 1000], [null, 15, 600]))],
      repeatable: true,
      kind: "hardware",
      what: "A low-pass over the gyro: what shakes faster than its cut is weakened.",
      why: "Propellers, bearings and the frame's own ringing lie above what a craft can ever do, and this takes them off as a whole. Lower it for a large or rattling craft; lift it on a stiff, clean one, because the delay it saves lets the gains go up. Far too low the craft wallows and bounces after flips; far too high the motors hum, run hot and finally burn.",
      hazard:
        "A cut lifted too far can burn motors within one flight: after thirty seconds of hovering land, pull the pack, and touch each of them.",
      related: ["filters.motor-notches", "filters.smooth-d", "sensors.gyro-rate"],
      words: ["gyro low-pass", "gyro filter", "less delay", "lowpass cutoff"],
    },
    {
      name: "smooth-d",
      types: [lowPassFields(dampingCuts)],
      repeatable: true,
      kind: "hardware",
      what: "A low-pass over the damping part of the controller alone.",
      why: "Damping looks at how fast the rotation changes, and that makes every rattle larger the faster it is: twice the frequency, twice the noise. So it gets a lower cut than the gyro, and often a second filter of its own. Too high here is the commonest cause of hot motors on an otherwise calm craft; too low, and the damping arrives when the overshoot is over and begins to feed it.",
      hazard:
        "Of all cuts this one heats motors the fastest: lift it by a tenth at a time, each with a short hover and the motors felt, pack out.",
      related: ["filters.smooth-gyro", "gains.roll", "gains.pitch"],
      words: ["d-term filter", "derivative low-pass", "motors hot after hover", "damping filter"],
    },
    {
      name: "notch",
      types: [
        {
          is: "fields",
          fields: [
            {
              name: "at",
              types: [
                {
                  is: "quantity",
                  unit: "Hz",
                  min: { at: 5, source: practice },
                  max: { at: 4000, source: practice },
                  usual: bySize([2.6, 60, 1500], [5.6, 30, 1000], [8, 20, 700], [null, 12, 500]),
                },
              ],
              what: "The frequency in the middle of the notch, where nothing passes.",
              required: true,
            },
            {
              name: "width",
              types: [notchWidth],
              what: "From the lower to the upper frequency at which half the power passes.",
              required: true,
            },
          ],
        },
      ],
      repeatable: true,
      kind: "hardware",
      what: "A cut at one fixed frequency, for a part of the frame that always rings at the same pitch.",
      why: "An arm, a camera mount or an antenna has one note of its own, whatever the motors do; a recording shows it as a straight line. Narrow and in the right place it costs almost no delay. A wide notch at a low frequency costs more than a low-pass would, and one left in after the rattling part was replaced cuts nothing but the craft's own answer.",
      related: ["filters.motor-notches", "filters.tracking-notches", "recorder.rate"],
      words: ["fixed notch", "frame resonance", "one frequency", "rings at one pitch"],
    },
    {
      name: "motor-notches",
      types: [
        {
          is: "fields",
          fields: [
            {
              name: "count",
              types: [
                {
                  is: "integer",
                  min: { at: 1, source: meaning },
                  max: { at: 8, source: practice },
                  usual: [{ from: 1, to: 4, source: practice }],
                },
              ],
              what: "How many harmonics of each motor's turning are cut: 1 is the turning itself.",
            },
            {
              name: "floor",
              types: [
                {
                  is: "quantity",
                  unit: "Hz",
                  min: { at: 5, source: practice },
                  max: { at: 1000, source: practice },
                  usual: bySize([2.6, 40, 400], [5.6, 25, 300], [8, 20, 250], [null, 12, 200]),
                },
              ],
              what: "The frequency below which no notch is placed, however slowly a motor turns.",
            },
            {
              name: "width",
              types: [notchWidth],
              what: "How wide each notch is, between the frequencies at which half the power passes.",
            },
            {
              name: "eases-in",
              types: [
                {
                  is: "quantity",
                  unit: "Hz",
                  min: { at: 0, source: meaning },
                  max: { at: 500, source: practice },
                  usual: [{ from: 0, to: 150, source: practice }],
                },
              ],
              what: "The stretch above the floor over which a notch comes in little by little.",
            },
          ],
        },
      ],
      kind: "hardware",
      what: "Notches that follow each motor's own speed and its harmonics.",
      why: "Nearly all vibration comes from the motors, and where their speed is known it can be cut exactly there, so that the low-passes may be opened wide. Three-bladed propellers shake at the turning and at three times it, two-bladed ones at twice. More harmonics load the processor for little; a floor set too low puts a notch among the craft's own movements at idle, and it wobbles when the throttle is closed. If all of them seem useless, count the magnets again: from a wrong number every notch is worked out beside the noise.",
      needs: [
        {
          setting: "motors.poles",
          reason: "Reported speeds are electrical turns, which the magnets make into real ones.",
        },
      ],
      related: ["motors.poles", "motors.rpm-feedback", "frame.propeller-blades", "filters.motor-notch-depths"],
      words: ["filter by motor speed", "motor noise filter", "harmonics", "notch that follows the motors"],
    },
    ...otherFilters,
  ],
};
