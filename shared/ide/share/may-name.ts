/** Names of people that only their friends could tell from other words: such notes stay, and are listed. */

/** Words with a capital and “'s” that name nobody. */
const NOBODY =
  /^(?:It|That|This|There|Here|What|Who|Let|He|She|Everybody|Somebody|Nobody|Anybody|Everyone|Someone|Today|Yesterday|Tomorrow|Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday|Winter|Summer|Spring|Autumn|January|February|March|April|May|June|July|August|September|October|November|December|Children|People|Maker)$/;

const BY =
  /\b(?:[Tt]uned|[Bb]uilt|[Ff]lown|[Mm]ade|[Ss]oldered|[Rr]epaired|[Bb]orrowed|[Bb]ought|[Ll]ent|[Aa]sk|[Tt]hanks) (?:by |from |to |for )?(\p{Lu}\p{Ll}{2,})\b/gu;
const WHOSE = /\b(\p{Lu}\p{Ll}{2,})['’]s\b/gu;

/** Whether a note may name a person by a first name alone. */
export function mayNamePerson(note: string): boolean {
  return [WHOSE, BY].some((pattern) => [...note.matchAll(pattern)].some(([, word]) => !NOBODY.test(word!)));
}
