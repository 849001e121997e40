/** What the tests use of a package that has no types of its own. */
declare module "culori" {
  export function wcagContrast(one: string, other: string): number;
}
