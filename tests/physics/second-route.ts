/** A test that checks a model along a second route, and the kinds of them. */
export interface SecondRoute {
  /** Test file, below tests. */
  readonly file: string;
  /** Title as it stands in the file. */
  readonly title: string;
  readonly kind: RouteKind;
}

export const routeKinds = [
  "ngspice",
  "closed form",
  "balance",
  "finite differences",
  "brute force",
  "limiting case",
  "published table",
  "published law",
] as const;
export type RouteKind = (typeof routeKinds)[number];

/** In tests/physics. */
export const physics = (file: string, title: string, kind: RouteKind): SecondRoute => ({ file: `physics/${file}.test.ts`, title, kind });
