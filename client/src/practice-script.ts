/** What the walkthrough lets a pilot practise on: a craft with one clash of modes and one element that covers another, and a friend's text. */

/** A script that needs no other file; it has exactly these two findings, and none once both are mended. */
export const PRACTICE_SCRIPT = `craft "Practice Pot"

# A practice craft, to try things on: it is a file only if you save it.

# The handset's controls stand here, so that this script needs no other file.
# Yours belong in a handset of their own, which all your craft use.
controls
  TL  switch  ch5  up 1000 us  down 2000 us  lies left shoulder
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us  lies right shoulder

frame
  motors              4
  propeller-diameter  5 in
  mass                620 g

pack
  chemistry  lipo
  cells      6
  capacity   1100 mAh
  warn-at    3.5 V/cell
  land-at    3.3 V/cell

video
  power-steps  25 mW, 200 mW

failsafe
  hold-for  1 s
  then      stop

modes
  arm         when TL is down
  level       when TR is up
  # The clash: with TR down, two modes that exclude each other are both on.
  # Change “TR is not up” into “TR is mid”, and it is gone.
  video-low   when TR is not up
  video-high  when TR is down

osd
  grid          53 x 20
  pack-volts    at left+3, bottom-2
  link-quality  at right-3, top+2
  alerts        at centre, middle+3
  # The flight time covers the pack's volts. Drag it to a free place in the goggles.
  flight-time   at left+4, bottom-2
`;

/** The rules whose findings a pilot mends in it, by the step of the walkthrough. */
export const PRACTISED = { clash: "mode-clash", osd: "osd-overlap" } as const;

/** Positions in which the clash is there. */
export const CLASHING = { TR: "down" } as const;

/** The line that a pilot mends, by the step of the walkthrough. */
export const MENDED_LINE = { clash: /^ +video-low .*/m, osd: /^ +flight-time .*/m } as const;

/**
 * What a friend sends, for the practice craft: two lines that are dangerous, some that differ, of which one is hardware,
 * some that are the same, and one that nobody understands.
 */
export const FRIENDS_TEXT = `# from Bram's five-inch, after the windy week
pack
  cells     6
  capacity  1300 mAh
  warn-at   3.6 V/cell

failsafe
  hold-for  2 s

modes
  arm    when TR is up
  level  when TR is up

osd
  pack-volts    at left+3, bottom-2
  link-quality  at right-3, top+1
  craft         at left+2, top+1

lamp glows at dusk
`;
