/** The controls of a usual handset: eight of them, as lines of its section. */
export declare const USUAL_CONTROLS = "  TL switch ch5 up 1000 us down 2000 us\n  TR switch ch6 up 1000 us mid 1500 us down 2000 us\n  SL switch ch7 up 1000 us mid 1500 us down 2000 us\n  SR switch ch8 up 1000 us mid 1500 us down 2000 us\n  PB button ch9 rest 1000 us held 2000 us\n  PC button ch10 rest 1000 us held 2000 us\n  KN dial ch11 1000 us to 2000 us\n  SX selector ch12 one 1000 us two 1200 us three 1400 us four 1600 us five 1800 us six 2000 us\n";
/** The modes of a usual craft on them: fourteen. */
export declare const USUAL_MODES = "  arm when TL is down\n  arm-permit when not ch3 above 1900 us or PC is held\n  level when TR is up\n  level-blend when TR is mid and not turtle\n  level-now when PB is held and arm\n  turtle when SL is down and TR is down\n  finder when SR is up and not arm\n  lights when SX is two or SX is three\n  lights-off when SX is six\n  video-low when KN below 1300 us\n  video-high when KN above 1700 us and arm\n  recorder when arm and SR is down\n  osd-hide when SL is mid and not finder\n  rates-second when SX is five or KN in 1400 us to 1600 us\n";
/**
 * A craft of so many lines: what it is, then a shelf of packs with their notes, and after each of
 * them board lines that are kept. At 500 lines that is 20 packs, at 10,000 it is 400.
 */
export declare function craftOf(lines: number): string;
/** Writes the workspace into a folder of its own; gives that folder. The craft is \`tankard.fettle\`. */
export declare function writeWorkspace(craft: string): string;
