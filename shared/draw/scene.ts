/** A drawing as plain data: SVG elements with tags, attributes and children, styled by class. */

export interface SceneNode {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children: readonly (SceneNode | string)[];
}

type Attributes = Readonly<Record<string, string | number | null>>;

/** One element of a drawing; attributes that are null are left out. */
export function node(tag: string, attributes: Attributes, children: readonly (SceneNode | string)[] = []): SceneNode {
  const present = Object.entries(attributes).flatMap(([name, value]): [string, string | number][] =>
    value === null ? [] : [[name, typeof value === "number" ? rounded(value) : value]],
  );
  return { tag, attributes: Object.fromEntries(present), children };
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A rectangle of a class; `radius` rounds its corners. */
export function rect(className: string, { x, y, width, height }: Box, radius = 0): SceneNode {
  return node("rect", { class: className, x, y, width, height, rx: radius === 0 ? null : radius });
}

/** A path of a class. */
export function path(className: string, d: string): SceneNode {
  return node("path", { class: className, d });
}

/** Rounds to a hundredth, so that a drawing's text is short and the same on every machine. */
export function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}
