/** What the examples of many rules share. */
import type { ExampleFiles } from "../engine/rule.ts";

/** A handset with two switches, a button and a dial, for the crafts of examples. */
export const WHEEL: ExampleFiles = {
  "wheel.fettle":
    'handset "Wheel"\n\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n  TR switch ch6 up 1000 us mid 1500 us down 2000 us\n  PB button ch7 rest 1000 us held 2000 us\n  KN dial ch9 1000 us to 2000 us\n',
};
