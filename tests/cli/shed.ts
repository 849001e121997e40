/** Scripts that several tests of the command line run on. */

export const wheel = `handset "Wheel"

transmitter
  band  2.4 GHz

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  KN  dial    ch9  1000 us to 2000 us
`;

/** Nothing at all is wrong with it. */
export const jug = `craft "Jug"

use "../handsets/wheel.fettle"

modes
  arm  when TL is down

failsafe
  then  stop
`;

/** One error and one warning, each with a line that it refers to. */
export const cup = `craft "Cup"

use "../handsets/wheel.fettle"

pack
  cells  4
  cells  6

link
  band  868 MHz

modes
  arm  when TL is down

failsafe
  then  stop
`;

/** A repository, so that a command may be run in any of its folders. */
export const shed = {
  ".git/HEAD": "ref: refs/heads/main\n",
  "handsets/wheel.fettle": wheel,
  "craft/jug.fettle": jug,
  "craft/cup.fettle": cup,
};
