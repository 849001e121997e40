/** The handset of the fleets in this folder. */
export const WHEEL = `handset "Wheel"
controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  FL switch ch7 up 1000 us mid 1500 us down 2000 us
  FR switch ch8 away 1000 us near 2000 us
  PB button ch9 rest 1000 us held 2000 us
  KN dial ch10 1000 us to 2000 us
  SX selector ch11 one 1000 us two 1200 us three 1400 us four 1600 us five 1800 us six 2000 us
`;
