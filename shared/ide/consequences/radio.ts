/** Consequences for the radios: packets, bands, powers, picture rate. */
import { ANALOGUE_WIDTH_MHZ, dbmOf, edgesMhz, mwOf } from "../../numbers/radio.ts";
import { ismBandOf } from "../../numbers/radio-bands.ts";
import { videoOf } from "../../numbers/radio-of.ts";
import { stickTravelsOf } from "../../numbers/rates-of.ts";
import { numberIn, numberOf } from "../../numbers/values.ts";
import { formatDuration, formatNumber, formatPercent } from "../context/format.ts";
import { type Consequence, type ConsequenceProvider, type ConsequenceProviders, consequence } from "./provider.ts";

/** A provider for a rate in Hz: the time between two of `what`. */
function periodOf(what: string): ConsequenceProvider {
  return ({ section, name, value }) => {
    const hz = numberOf(value, "Hz");
    if (hz === null || hz <= 0) return [];
    return consequence(`${what} every ${formatDuration(1 / hz)}`, [`${section}.${name}`]);
  };
}

const packetInterval: ConsequenceProvider = (subject) => {
  const { craft, catalogue, value } = subject;
  const hz = numberOf(value, "Hz");
  if (hz === null) return [];
  const loopKhz = numberIn(craft, catalogue, "sensors", "loop-rate", "kHz");
  const rounds =
    loopKhz === null ? "" : `; the loop goes round ${formatNumber((loopKhz * 1000) / hz)} times from one to the next`;
  return [
    ...consequence(
      `A packet every ${formatDuration(1 / hz)}${rounds}`,
      ["link.packet-rate", ...(loopKhz === null ? [] : ["sensors.loop-rate"])],
      formatDuration(1 / hz),
    ),
    ...missedPackets(subject),
  ];
};

const missedPackets: ConsequenceProvider = ({ craft, catalogue }) => {
  const lostS = numberIn(craft, catalogue, "link", "lost-after", "s");
  const hz = numberIn(craft, catalogue, "link", "packet-rate", "Hz");
  return lostS === null || hz === null
    ? []
    : consequence(`The signal counts as lost after ${formatNumber(lostS * hz)} missed packets in a row`, [
        "link.lost-after",
        "link.packet-rate",
      ]);
};

const telemetryRate: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const hz = numberIn(craft, catalogue, "link", "packet-rate", "Hz");
  const among = numberOf(value, "");
  if (hz === null || among === null || among <= 0) return [];
  return consequence(`${formatNumber(hz / among)} reports a second come back`, [
    "link.telemetry-every",
    "link.packet-rate",
  ]);
};

const deadbandShare: ConsequenceProvider = ({ craft, catalogue, name, value }) => {
  const us = numberOf(value, "us");
  const travels = stickTravelsOf(craft, catalogue);
  if (us === null || !travels) return [];
  const { centreUs, toUs } = travels.rollAndPitch;
  if (toUs <= centreUs) return [];
  return consequence(`It takes ${formatPercent(us / (toUs - centreUs))} of the way from the middle to the end`, [
    `link.${name}`,
    "link.endpoints",
    "link.centre",
  ]);
};

const stickSteps: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const us = numberOf(value, "us");
  const ends = stickTravelsOf(craft, catalogue)?.throttle;
  if (us === null || us <= 0 || !ends) return [];
  return consequence(`A stick has ${formatNumber((ends.toUs - ends.fromUs) / us, 4)} steps from end to end`, [
    "link.resolution",
    "link.endpoints",
  ]);
};

/** The ISM band that holds a frequency, in words with its source; null where none does. */
function ismText(mhz: number): string | null {
  const band = ismBandOf(mhz);
  return band && `${band.fromMhz} to ${band.toMhz} MHz (47 CFR 18.301)`;
}

const linkBand: ConsequenceProvider = ({ section, value }) => {
  const mhz = numberOf(value, "MHz");
  const band = mhz === null ? null : ismText(mhz);
  return band === null ? [] : consequence(`It lies in the ISM band ${band}`, [`${section}.band`]);
};

const carrier: ConsequenceProvider = ({ craft, catalogue, name, value }) => {
  const mhz = numberOf(value, "MHz");
  if (mhz === null) return [];
  const own = `video.${name}`;
  const { signal, region, place, bands, widthMhz } = videoOf(craft, catalogue);
  const { fromMhz, toMhz } = edgesMhz(mhz, ANALOGUE_WIDTH_MHZ);
  const sentences: Consequence[] = [];
  if (signal === "analogue")
    sentences.push(
      ...consequence(
        `An analogue signal is some ${ANALOGUE_WIDTH_MHZ} MHz wide: ${formatNumber(fromMhz, 5)} to ${formatNumber(toMhz, 5)} MHz`,
        [own, "video.signal"],
      ),
    );
  const band = ismText(mhz);
  sentences.push(
    ...consequence(band === null ? "No ISM band holds it" : `Its middle lies in the ISM band ${band}`, [own]),
  );
  if (name === "frequency" && region !== null && (place === "inside" || place === "spills")) {
    const held = bands.map((each) => `${each.fromMhz} to ${each.toMhz} MHz (${each.source})`).join("; ");
    const spills = place === "spills" ? ", and an edge of it spills over" : "";
    const widths = signal === "digital" && widthMhz !== null ? ["video.signal", "video.signal-width"] : [];
    sentences.push(
      ...consequence(`For ${region} it stands in ${held}${spills}; local rules come first`, [
        own,
        "video.region",
        ...widths,
      ]),
    );
  }
  return sentences;
};

const power: ConsequenceProvider = ({ craft, catalogue, section, name, value }) => {
  if (value.kind !== "quantity") return [];
  const mw = numberOf(value, "mW");
  if (mw === null || mw <= 0) return [];
  const other = value.unit === "dBm" ? `${formatNumber(mwOf(value.number))} mW` : `${formatNumber(dbmOf(mw))} dBm`;
  const own = `${section}.${name}`;
  const sentences = consequence(`${formatNumber(value.number, 5)} ${value.unit} is ${other}`, [own], `= ${other}`);
  const { region, most } = videoOf(craft, catalogue);
  if (section !== "video" || name !== "power" || region === null || !most) return sentences;
  return [
    ...sentences,
    ...consequence(
      `The most for ${region} on this frequency is ${formatNumber(most.powerMw)} mW, ${formatNumber(dbmOf(most.powerMw))} dBm, ${most.band.atPlug ? "at the antenna's plug" : "radiated"} (${most.band.source}); local rules come first`,
      [own, "video.region", "video.frequency"],
    ),
  ];
};

const powerSteps: ConsequenceProvider = ({ value }) => {
  if (value.kind !== "list") return [];
  const each = value.items.flatMap((item) => {
    const mw = numberOf(item, "mW");
    return mw === null || mw <= 0 ? [] : formatNumber(dbmOf(mw));
  });
  return each.length === 0 ? [] : consequence(`In dBm: ${each.join(", ")}`, ["video.power-steps"]);
};

const recordedFrequencies: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const hz = numberOf(value, "Hz");
  if (hz === null) return [];
  const loopKhz = numberIn(craft, catalogue, "sensors", "loop-rate", "kHz");
  const rounds = loopKhz === null ? "" : `, one line for ${formatNumber((loopKhz * 1000) / hz)} rounds of the loop`;
  return consequence(`It shows what shakes below ${formatNumber(hz / 2, 4)} Hz${rounds}`, [
    "recorder.rate",
    ...(loopKhz === null ? [] : ["sensors.loop-rate"]),
  ]);
};

export const linkProviders: ConsequenceProviders = {
  "packet-rate": packetInterval,
  "lost-after": missedPackets,
  "telemetry-every": telemetryRate,
  deadband: deadbandShare,
  "yaw-rest-zone": deadbandShare,
  resolution: stickSteps,
  band: linkBand,
  "receiver-power": power,
};

export const videoProviders: ConsequenceProviders = {
  frequency: carrier,
  "spare-frequency": carrier,
  power,
  "power-steps": powerSteps,
  "power-disarmed": power,
  "power-lost": power,
  "frame-rate": periodOf("A picture"),
};

export const transmitterProviders: ConsequenceProviders = { band: linkBand, power, "power-least": power };
export const cameraProviders: ConsequenceProviders = { "servo-rate": periodOf("A pulse") };
export const navigationRadioProviders: ConsequenceProviders = { "update-rate": periodOf("A fix") };
export const recorderProviders: ConsequenceProviders = { rate: recordedFrequencies };
