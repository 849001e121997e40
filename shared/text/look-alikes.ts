/**
 * Letters of other scripts that look like an ASCII letter or digit: each with what it looks like.
 *
 * From the confusables of the Unicode Security Mechanisms (UTS #39, confusables.txt), only what is a single letter of
 * a script in which people write, and looks like a single ASCII character; and the small Cyrillic к, which most faces
 * draw as a k. Full-width, mathematical and other letters that are variants of ASCII ones by their compatibility
 * decomposition (UAX #15) need no table.
 */
const PAIRS: Readonly<Record<string, string>> = {
  Cyrillic: "ЅSІlЈJАAВBЕEЗ3КKМMНHОOРPСCТTУYХXЬbаaб6гrеeоoрpсcуyхxѕsіiјjѡwѴVѵvҮYүyһhҽeӀlӏiӠ3ԁdԌGԛqԜWԝwꙄ2ꙇiкk",
  Greek: "ͿJΑAΒBΕEΖZΗHΙlΚKΜMΝNΟOΡPΤTΥYΧXαaγyιiνvοoρpσoυuϒYϜFϱpϲcϳjϹCϺMᴦrιi",
  Latin: "ıiƄbƍgƖlƦRƧ2Ʒ3Ƽ5ƽsǀlȜ3Ȣ8ȣ8ɑaɡgɣyɩiɪiɯwʋuʏyᴄcᴏoᴑoᴜuᴠvᴡwᴢzᶃgᶌyẝfỿyꜱsꝚ2Ꝫ3Ꝯ9ꞘFꞙfꞟuꞫ3ꞲJꞳXꞴBꬲeꬵfꬽoꭇrꭈrꭎuꭒuꭚy",
  Armenian: "ՍUՏSՕOաwգqզqհhոnռnսuցgքfօo",
  Cherokee: "ᎠDᎡRᎢTᎥiᎩYᎪAᎫJᎬEᎳWᎷMᎻHᎽYᏀGᏂhᏃZᏎ4ᏏbᏒRᏔWᏕSᏙVᏚSᏞLᏟCᏢPᏦKᏧdᏮ6ᏳGᏴBꭵiꮁrꮃwꮓzꮩvꮪsꮯc",
  Coptic: "Ϩ2ⲅrⲎHⲒlⲔKⲘMⲚNⲞOⲟoⲢPⲣpⲤCⲥcⲦTⲨYⲬXⳊ9Ⳍ3ⳐLⳒ6",
  Lisu: "ꓐBꓑPꓒdꓓDꓔTꓖGꓗKꓙJꓚCꓜZꓝFꓟMꓠNꓡLꓢSꓣRꓦVꓧHꓪWꓫXꓬYꓮAꓰEꓲlꓳOꓴU",
  Deseret: "𐐄O𐐕C𐐛L𐐠S𐐬o𐐽c𐑈s",
  Georgian: "ყyჿo",
  Canadian: "ᐯVᑌUᑭPᑯdᑲbᒍJᒪLᒿ2ᕁxᕼHᕽxᖇRᖯbᖴFᗅAᗞDᗪDᗰMᗷB",
  Tifinagh: "ⴸVⴹEⵏlⵔOⵕQⵝX",
  Runic: "ᚷXᛁlᛕKᛖM",
  Hebrew: "וlטvןlסo",
};

const LOOKS_LIKE: ReadonlyMap<string, string> = new Map(
  Object.values(PAIRS).flatMap((pairs) => {
    const characters = [...pairs];
    return characters.flatMap((character, at) => (at % 2 === 0 ? [[character, characters[at + 1]!] as const] : []));
  }),
);

const ASCII = /^[!-~]$/;

/** The ASCII character that a character looks like, though it is another one; null for all others. */
export function lookAlikeOf(character: string): string | null {
  if (ASCII.test(character)) return null;
  const plain = character.normalize("NFKC");
  if (plain !== character && ASCII.test(plain)) return plain;
  // A mathematical Greek letter is Greek first, and may then look like a Latin one.
  return LOOKS_LIKE.get(character) ?? LOOKS_LIKE.get(plain) ?? null;
}
