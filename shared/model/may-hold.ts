/** Which kinds of files may have a section. */
import type { SectionSpec } from "../catalogue/specs.ts";
import type { FileKind } from "../syntax/tree.ts";

/** True where a file of this kind may have the section; never in a dialect, whose sections `shared/dialect` reads. */
export function mayHold(spec: SectionSpec, kind: FileKind): boolean {
  return spec.in.some((each) => each === kind);
}
