/** Forms of coordinates and of postal addresses. */
import type { PrivatePattern } from "./private-pattern.ts";

const PLACE = { what: "coordinates", like: "coordinates of a place" };
const ADDRESS = { what: "address", like: "a postal address" };

const DEGREES = String.raw`[-+]?\d{1,3}[.,]\d{2,}`;
const BETWEEN = String.raw`[ \t]*(?:[,;/][ \t]*|[ \t])`;
/** Degrees with minutes, and seconds or not: 52° 31' 0". */
const SEXAGESIMAL = String.raw`\d{1,3}[ \t]*°[ \t]*\d{1,2}(?:[.,]\d+)?[ \t]*['’′](?:[ \t]*\d{1,2}(?:[.,]\d+)?[ \t]*(?:["”″]|''))?`;
const NORTH = "[NS]";
const EAST = "[EWO]";

/** Kinds of streets, as a word of their own behind the name. */
const STREETS =
  "Street|Road|Lane|Avenue|Drive|Close|Court|Square|Terrace|Crescent|Gardens|Hill|Row|Walk|Way|Boulevard|Place|St|Rd|Ave|Ln|Blvd";
/** Before the name. */
const STREETS_BEFORE =
  "[Rr]ue|[Vv]ia|[Vv]iale|[Cc]alle|[Aa]venida|[Aa]venue|[Bb]oulevard|[Rr]ua|[Uu]lica|ul\\.|[Pp]laza|[Pp]iazza|[Cc]hemin|[Cc]arrer";
/** As the end of the name. */
const STREETS_IN = "stra(?:ß|ss)e|str\\.|weg|gasse|platz|allee|straat|laan|gade|vej|gatan|vägen|tie|katu";

export const placePatterns: readonly PrivatePattern[] = [
  { ...PLACE, pattern: /\bgeo:[-\d.,;=a-z]+/dgi },
  // Latitude and longitude by their names, or behind the name of a place of two.
  {
    ...PLACE,
    pattern: new RegExp(
      String.raw`\b(?:lat(?:itude)?)\b\.?[ \t]*[:=]?[ \t]*${DEGREES}°?[ \t]*[NS]?(?:[ \t,;/]*\b(?:lon(?:g(?:itude)?)?|lng)\b\.?[ \t]*[:=]?[ \t]*${DEGREES}(?:°?[ \t]*[EWO]\b|°)?)?`,
      "dgi",
    ),
  },
  { ...PLACE, pattern: new RegExp(String.raw`\b(?:lon(?:g(?:itude)?)?|lng)\b[ \t]*[:=]?[ \t]*${DEGREES}`, "dgi") },
  {
    ...PLACE,
    pattern: new RegExp(
      String.raw`\b(?:gps|home|coord(?:inate)?s?|pos(?:ition)?|location|field|launch|take-?off|waypoint|wp ?\d*)\b[ \t]*(?:is|at)?[:=]?[ \t]*\(?(?<it>[-+]?\d{1,2}\.\d{3,}°?${BETWEEN}[-+]?\d{1,3}\.\d{3,})(?![\d.]*[ \t]*(?:V|A|Hz|%|m|s|us|ms|mAh)\b)`,
      "dgi",
    ),
    holds: isOnEarth,
  },
  // As pairs of many decimals, with the hemisphere or without it.
  {
    ...PLACE,
    pattern: new RegExp(
      String.raw`(?<![\d.,])${DEGREES}[ \t]*°?[ \t]*${NORTH}${BETWEEN}?${DEGREES}[ \t]*°?[ \t]*${EAST}\b`,
      "dg",
    ),
    holds: isOnEarth,
  },
  {
    ...PLACE,
    pattern: new RegExp(String.raw`\b${NORTH}[ \t]*${DEGREES}°?${BETWEEN}?${EAST}[ \t]*${DEGREES}°?`, "dg"),
    holds: isOnEarth,
  },
  // The same with decimal commas.
  {
    ...PLACE,
    pattern:
      /(?<![\d.,-])-?\d{1,2},\d{4,}°?[ \t]*[;/ ][ \t]*-?\d{1,3},\d{4,}°?(?![\d,]*[ \t]*(?:V|A|Hz|%|deg|m|s|us|ms|mAh)\b)/dg,
    holds: isPairOfPlace,
  },
  // Degrees and minutes with decimals, without their signs: N52 31.200 E013 24.300.
  {
    ...PLACE,
    pattern:
      /\b[NS][ \t]*\d{1,2}[ °]+\d{1,2}[.,]\d+['’′]?[ \t]*[,;/]?[ \t]*[EWO][ \t]*\d{1,3}[ °]+\d{1,2}[.,]\d+['’′]?/dg,
  },
  {
    ...PLACE,
    pattern:
      /\b\d{1,2}[ °]+\d{1,2}[.,]\d+['’′]?[ \t]*[NS]\b[ \t]*[,;/]?[ \t]*\d{1,3}[ °]+\d{1,2}[.,]\d+['’′]?[ \t]*[EWO]\b/dg,
  },
  {
    ...PLACE,
    pattern:
      /(?<![\d.,-])-?\d{1,2}\.\d{4,}°?[ \t]*[,;/ ][ \t]*-?\d{1,3}\.\d{4,}°?(?![\d.]*[ \t]*(?:V|A|Hz|%|deg|m|s|us|ms|mAh)\b)/dg,
    holds: isPairOfPlace,
  },
  { ...PLACE, pattern: /[+-]\d{2}(?:\.\d+)[+-]\d{3}(?:\.\d+)(?:[+-]\d+(?:\.\d+)?)?\/?/dg },
  // Degrees, minutes and seconds.
  {
    ...PLACE,
    pattern: new RegExp(String.raw`${SEXAGESIMAL}[ \t]*${NORTH}\b${BETWEEN}?${SEXAGESIMAL}[ \t]*${EAST}\b`, "dg"),
  },
  {
    ...PLACE,
    pattern: new RegExp(String.raw`\b${NORTH}[ \t]*${SEXAGESIMAL}${BETWEEN}?${EAST}[ \t]*${SEXAGESIMAL}`, "dg"),
  },
  { ...PLACE, pattern: new RegExp(String.raw`${SEXAGESIMAL}[ \t]*[NSEWO]\b`, "dg") },
  {
    ...PLACE,
    pattern:
      /\b\d{1,2}d ?\d{1,2}m ?(?:\d{1,2}(?:\.\d+)?s ?)?[NS][ ,;]*\d{1,3}d ?\d{1,2}m ?(?:\d{1,2}(?:\.\d+)?s ?)?[EW]\b/dg,
  },
  {
    ...PLACE,
    pattern:
      /\bcoord(?:inate)?s?\b[ \t]*(?:are|is)?[:=]?[ \t]*\(?(?<it>[-+]?\d{1,2}\.\d{2,}°?[ \t]*[,;/ ][ \t]*[-+]?\d{1,3}\.\d{2,}°?)/dgi,
  },
  { ...PLACE, pattern: /\b\d{2} ?\d{2} ?\d{2}(?:\.\d+)? ?[NS][ ,;]*\d{2,3} ?\d{2} ?\d{2}(?:\.\d+)? ?[EW]\b/dg },
  // Codes of grids: open location codes, the military grid, zones of the transverse Mercator grid, locators.
  {
    ...PLACE,
    pattern: /(?<![\w+])[23456789CFGHJMPQRVWX]{4,8}\+[23456789CFGHJMPQRVWX]{2,3}\b/dg,
    holds: isLocationCode,
  },
  { ...PLACE, pattern: /\b\d{1,2}[C-HJ-NP-X] ?\d{6}(?:\.\d+)?(?: ?m ?E)?[ ,]+\d{7}(?:\.\d+)?(?: ?m ?N)?\b/dg },
  {
    ...PLACE,
    pattern: /\b\d{1,2}[C-HJ-NP-X] ?[A-HJ-NP-Z]{2} ?(?:\d{2} ?\d{2}|\d{3} ?\d{3}|\d{4} ?\d{4}|\d{5} ?\d{5})\b/dg,
  },
  { ...PLACE, pattern: /\b[A-R]{2}\d{2}[a-x]{2}(?:\d{2})?\b/dg },
  { ...PLACE, pattern: /\/\/\/\p{L}+\.\p{L}+\.\p{L}+/dgu },
  // Streets with the number of a house.
  {
    ...ADDRESS,
    pattern: new RegExp(String.raw`\b\d{1,4}[a-z]? (?:\p{Lu}[\p{L}'’-]+ ){1,3}(?:${STREETS})\b(?! marks)`, "dgu"),
  },
  {
    ...ADDRESS,
    pattern: new RegExp(
      String.raw`(?<![\p{L}])\p{Lu}[\p{L}-]*(?:${STREETS_IN}) \d{1,4} ?[a-z]?\b(?! ?(?:m|V|A|s)\b)`,
      "dgu",
    ),
  },
  {
    ...ADDRESS,
    pattern: new RegExp(
      String.raw`\b\d{1,4}(?: ?(?:bis|ter))?,? (?:${STREETS_BEFORE}) (?:(?:du|de|des|la|le|les|della|del|di|da|do) )*\p{Lu}[\p{L}'’-]+`,
      "dgu",
    ),
  },
  {
    ...ADDRESS,
    pattern: new RegExp(
      String.raw`\b(?:${STREETS_BEFORE}) (?:(?:du|de|des|la|le|les|della|del|di|da|do) )*\p{Lu}[\p{L}'’-]+,? (?:n\.? ?º? ?)?\d{1,4}[a-z]?\b`,
      "dgu",
    ),
  },
  { ...ADDRESS, pattern: /(?:\p{Lu}[\p{L}.-]+ )+\d{1,4} ?[a-z]?, ?(?:[A-Z]{1,2}-)?\d{4,5} \p{Lu}\p{L}{2,}/dgu },
  { ...ADDRESS, pattern: /\b[A-Z]{1,2}\d[A-Z\d]? \d[ABD-HJLNP-UW-Z]{2}\b/dg },
];

/** The numbers of a pair, the first of them at most 90, the other at most 180. */
function isOnEarth(it: string): boolean {
  const [first, second] = (it.match(/\d+(?:[.,]\d+)?/g) ?? []).map((each) => Number(each.replace(",", ".")));
  return first !== undefined && second !== undefined && first <= 90 && second <= 180;
}

/** Not two readings of one thing, which lie close together, nor the constants of mathematics. */
function isPairOfPlace(it: string): boolean {
  const [first, second] = (it.match(/-?\d+[.,]\d+/g) ?? []).map((each) => Number(each.replace(",", ".")));
  if (first === undefined || second === undefined || !isOnEarth(it)) return false;
  return Math.abs(first - second) > 0.5 && (Math.abs(first) >= 5 || Math.abs(second) >= 5);
}

/** With letters as well as digits, since 2345+67 is a sum. */
function isLocationCode(it: string): boolean {
  return /[C-X]/.test(it) && /\d/.test(it) && it.indexOf("+") % 2 === 0 && it.length >= 7;
}
