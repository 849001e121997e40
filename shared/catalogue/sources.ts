/** Where the catalogue's limits come from, when several limits share a source. */

/** Pilots and builders agree on it; nobody has published it. */
export const practice = "common practice, no source";

/** The number follows from what the word means: a share ends at 100 %, a circle at 360 deg. */
export const meaning = "by definition of the quantity";

/** Licence-free 5.8 GHz in Europe. */
export const europe58 = "ETSI EN 300 440 V2.2.1, Table 1";

/** The height limit of the open category. */
export const openCategory = "Regulation (EU) 2019/947, UAS.OPEN.010(2)";

/** Drawings turn a part by up to three quarters one way where one quarter the other way comes to the same. */
export const turns = "common practice, no source: makers' drawings give a turn as 0, 90, 180 or 270 deg";

/** Of a need that stands beside its setting: what the setting is cannot be without it. */
export const byMeaning = "by definition of the words";
