/** What follows for the radios: packets, bands, powers, pictures a second. */
import { ANALOGUE_WIDTH_MHZ, dbmOf, edgesMhz, mwOf } from "../../numbers/radio.ts";
import { ismBandOf } from "../../numbers/radio-bands.ts";
import { videoOf } from "../../numbers/radio-of.ts";
import { stickTravelsOf } from "../../numbers/rates-of.ts";
import { numberIn, numberOf } from "../../numbers/values.ts";
import { duration, figure, percent } from "../context/format.ts";
import { type Consequence, type ConsequenceProvider, type ConsequenceProviders, says } from "./provider.ts";

/** Something that comes so often a second. */
function every(what: string): ConsequenceProvider {
  return ({ section, name, value }) => {
    const hz = numberOf(value, "Hz");
    if (hz === null || hz <= 0) return [];
    return says(`${what} every ${duration(1 / hz)}`, [`${section}.${name}`]);
  };
}

const packets: ConsequenceProvider = (subject) => {
  const { craft, catalogue, value } = subject;
  const hz = numberOf(value, "Hz");
  if (hz === null) return [];
  const loopKhz = numberIn(craft, catalogue, "sensors", "loop-rate", "kHz");
  const rounds =
    loopKhz === null ? "" : `; the loop goes round ${figure((loopKhz * 1000) / hz)} times from one to the next`;
  return [
    ...says(
      `A packet every ${duration(1 / hz)}${rounds}`,
      ["link.packet-rate", ...(loopKhz === null ? [] : ["sensors.loop-rate"])],
      duration(1 / hz),
    ),
    ...missed(subject),
  ];
};

const missed: ConsequenceProvider = ({ craft, catalogue }) => {
  const lostS = numberIn(craft, catalogue, "link", "lost-after", "s");
  const hz = numberIn(craft, catalogue, "link", "packet-rate", "Hz");
  return lostS === null || hz === null
    ? []
    : says(`The link counts as lost after ${figure(lostS * hz)} missed packets in a row`, [
        "link.lost-after",
        "link.packet-rate",
      ]);
};

const replies: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const hz = numberIn(craft, catalogue, "link", "packet-rate", "Hz");
  const among = numberOf(value, "");
  if (hz === null || among === null || among <= 0) return [];
  return says(`${figure(hz / among)} reports a second come back`, ["link.telemetry-every", "link.packet-rate"]);
};

const dead: ConsequenceProvider = ({ craft, catalogue, name, value }) => {
  const us = numberOf(value, "us");
  const travels = stickTravelsOf(craft, catalogue);
  if (us === null || !travels) return [];
  const { centreUs, toUs } = travels.rollAndPitch;
  if (toUs <= centreUs) return [];
  return says(`It takes ${percent(us / (toUs - centreUs))} of the way from the middle to the end`, [
    `link.${name}`,
    "link.endpoints",
    "link.centre",
  ]);
};

const steps: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const us = numberOf(value, "us");
  const ends = stickTravelsOf(craft, catalogue)?.throttle;
  if (us === null || us <= 0 || !ends) return [];
  return says(`A stick has ${figure((ends.toUs - ends.fromUs) / us, 4)} steps from end to end`, [
    "link.resolution",
    "link.endpoints",
  ]);
};

/** The band that holds a frequency in which anything may send without a licence, within the power of the place. */
function ismText(mhz: number): string | null {
  const band = ismBandOf(mhz);
  return band && `${band.fromMhz} to ${band.toMhz} MHz (47 CFR 18.301)`;
}

const linkBand: ConsequenceProvider = ({ section, value }) => {
  const mhz = numberOf(value, "MHz");
  const band = mhz === null ? null : ismText(mhz);
  return band === null ? [] : says(`It lies in the ISM band ${band}`, [`${section}.band`]);
};

const carrier: ConsequenceProvider = ({ craft, catalogue, name, value }) => {
  const mhz = numberOf(value, "MHz");
  if (mhz === null) return [];
  const own = `video.${name}`;
  const { signal, region, place, bands } = videoOf(craft, catalogue);
  const { fromMhz, toMhz } = edgesMhz(mhz, ANALOGUE_WIDTH_MHZ);
  const told: Consequence[] = [];
  if (signal === "analogue")
    told.push(
      ...says(
        `An analogue signal is some ${ANALOGUE_WIDTH_MHZ} MHz wide: ${figure(fromMhz, 5)} to ${figure(toMhz, 5)} MHz`,
        [own, "video.signal"],
      ),
    );
  const band = ismText(mhz);
  told.push(...says(band === null ? "No ISM band holds it" : `Its middle lies in the ISM band ${band}`, [own]));
  if (name === "frequency" && region !== null && (place === "inside" || place === "spills")) {
    const held = bands.map((each) => `${each.fromMhz} to ${each.toMhz} MHz (${each.source})`).join("; ");
    const spills = place === "spills" ? ", and an edge of it spills over" : "";
    told.push(...says(`For ${region} it stands in ${held}${spills}; local rules come first`, [own, "video.region"]));
  }
  return told;
};

const power: ConsequenceProvider = ({ craft, catalogue, section, name, value }) => {
  if (value.kind !== "quantity") return [];
  const mw = numberOf(value, "mW");
  if (mw === null || mw <= 0) return [];
  const other = value.unit === "dBm" ? `${figure(mwOf(value.number))} mW` : `${figure(dbmOf(mw))} dBm`;
  const own = `${section}.${name}`;
  const told = says(`${figure(value.number, 5)} ${value.unit} is ${other}`, [own], `= ${other}`);
  const { region, most } = videoOf(craft, catalogue);
  if (section !== "video" || name !== "power" || region === null || !most) return told;
  return [
    ...told,
    ...says(
      `The most for ${region} on this frequency is ${figure(most.powerMw)} mW, ${figure(dbmOf(most.powerMw))} dBm, ${most.band.atPlug ? "at the antenna's plug" : "radiated"} (${most.band.source}); local rules come first`,
      [own, "video.region", "video.frequency"],
    ),
  ];
};

const powers: ConsequenceProvider = ({ value }) => {
  if (value.kind !== "list") return [];
  const each = value.items.flatMap((item) => {
    const mw = numberOf(item, "mW");
    return mw === null || mw <= 0 ? [] : figure(dbmOf(mw));
  });
  return each.length === 0 ? [] : says(`In dBm: ${each.join(", ")}`, ["video.power-steps"]);
};

const logged: ConsequenceProvider = ({ craft, catalogue, value }) => {
  const hz = numberOf(value, "Hz");
  if (hz === null) return [];
  const loopKhz = numberIn(craft, catalogue, "sensors", "loop-rate", "kHz");
  const rounds = loopKhz === null ? "" : `, one line for ${figure((loopKhz * 1000) / hz)} rounds of the loop`;
  return says(`It shows what shakes below ${figure(hz / 2, 4)} Hz${rounds}`, [
    "recorder.rate",
    ...(loopKhz === null ? [] : ["sensors.loop-rate"]),
  ]);
};

export const linkProviders: ConsequenceProviders = {
  "packet-rate": packets,
  "lost-after": missed,
  "telemetry-every": replies,
  deadband: dead,
  "yaw-deadband": dead,
  resolution: steps,
  band: linkBand,
  "receiver-power": power,
};

export const videoProviders: ConsequenceProviders = {
  frequency: carrier,
  "spare-frequency": carrier,
  power,
  "power-steps": powers,
  "power-disarmed": power,
  "power-lost": power,
  "frame-rate": every("A picture"),
};

export const transmitterProviders: ConsequenceProviders = { band: linkBand, power, "power-least": power };
export const cameraProviders: ConsequenceProviders = { "servo-rate": every("A pulse") };
export const navigationRadioProviders: ConsequenceProviders = { "update-rate": every("A fix") };
export const recorderProviders: ConsequenceProviders = { rate: logged };
