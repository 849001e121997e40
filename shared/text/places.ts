/** Where a control lies on its handset, in words. */

/** “on the left shoulder”, “on the right”, “in the middle of the face”. */
export function placeInWords({ side, face }: { readonly side: string; readonly face: string | null }): string {
  if (side === "middle") return face === null ? "in the middle" : `in the middle of the ${FACE_WORDS[face] ?? face}`;
  if (face === null) return `on the ${side}`;
  return face === "shoulder" ? `on the ${side} shoulder` : `on the ${side} of the ${face}`;
}

const FACE_WORDS: Readonly<Record<string, string>> = { shoulder: "upper edge" };
