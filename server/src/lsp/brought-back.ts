/** What the server puts beside an item, and a client brings back with it, maybe from another session or of another server. */

/** The members that are looked at, each by the name that `typeof` has for it, or as a shape of its own. */
export interface Shape {
  readonly [member: string]: "string" | "number" | Shape;
}

/** The data of an item; null where it is none of ours. */
export function broughtBack<T>(data: unknown, shape: Shape): T | null {
  return hasShape(data, shape) ? (data as T) : null;
}

function hasShape(data: unknown, shape: Shape): boolean {
  if (typeof data !== "object" || data === null) return false;
  return Object.entries(shape).every(([member, of]) => {
    const value = (data as Readonly<Record<string, unknown>>)[member];
    return typeof of === "string" ? typeof value === of : hasShape(value, of);
  });
}
