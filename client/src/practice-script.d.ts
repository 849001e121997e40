/** The craft on which the walkthrough lets a pilot practise: one clash of modes, one element that covers another. */
/** A script that needs no other file; it has exactly these two findings, and none once both are mended. */
export declare const PRACTICE_SCRIPT =
  "# A practice craft, to try things on: it is a file only if you save it.\ncraft \"Practice Pot\"\n\n# The handset's controls stand here, so that this script needs no other file.\n# Yours belong in a handset of their own, which all your craft use.\ncontrols\n  TL  switch  ch5  up 1000 us  down 2000 us\n  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us\n\nframe\n  motors              4\n  propeller-diameter  5 in\n  mass                620 g\n\npack\n  chemistry  lipo\n  cells      6\n  capacity   1100 mAh\n  warn-at    3.5 V/cell\n  land-at    3.3 V/cell\n\nvideo\n  power-steps  25 mW, 200 mW\n\nfailsafe\n  hold-for  1 s\n  then      stop\n\nmodes\n  arm         when TL is down\n  level       when TR is up\n  # The clash: with TR down, two modes that exclude each other are both on.\n  # Change \u201CTR is not up\u201D into \u201CTR is mid\u201D, and it is gone.\n  video-low   when TR is not up\n  video-high  when TR is down\n\nosd\n  grid          53 x 20\n  pack-volts    at left+3, bottom-2\n  link-quality  at right-3, top+2\n  alerts        at centre, middle+3\n  # The flight time covers the pack's volts. Drag it to a free place in the goggles.\n  flight-time   at left+4, bottom-2\n";
/** The rules whose findings a pilot mends in it, by the step of the walkthrough. */
export declare const PRACTISED: {
  readonly clash: "mode-clash";
  readonly osd: "osd-overlap";
};
/** Positions in which the clash is there. */
export declare const CLASHING: {
  readonly TR: "down";
};
