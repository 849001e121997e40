/** What the tests use of a package that has no types of its own. */
declare module "culori" {
  export function wcagContrast(one: string, other: string): number;
  /** Parts from 0 to 1, of a CSS colour that is opaque. */
  export function parse(colour: string): { mode: "rgb"; r: number; g: number; b: number } | undefined;
}
