/** Shapes of plain data from a file that anybody may have edited: what is wrong with a value, in words, or nothing. */

/** Says what is not as it should be, such as `rows[2].node is no text`. `nodes` collects the ids of nodes that the value names. */
export type Shape = (value: unknown, place: string, nodes: string[]) => string | undefined;

type Fields = Readonly<Record<string, unknown>>;

const is =
  (what: string, test: (value: unknown) => boolean): Shape =>
  (value, place) =>
    test(value) ? undefined : `${place} is no ${what}`;

export const text = is("text", (value) => typeof value === "string");
export const number = is("number", (value) => typeof value === "number" && Number.isFinite(value));
export const flag = is("true or false", (value) => typeof value === "boolean");
/** JSON holds an infinite limit as null. */
export const end = is("number", (value) => value === null || typeof value === "number");
export const oneOf = (...words: readonly unknown[]): Shape => is(words.join(" or "), (value) => words.includes(value));

/** The id of a node of the book. */
export const node: Shape = (value, place, nodes) => {
  if (typeof value !== "string") return `${place} is no text`;
  nodes.push(value);
  return undefined;
};

export const listOf =
  (shape: Shape, least = 0): Shape =>
  (value, place, nodes) => {
    if (!Array.isArray(value) || value.length < least) return `${place} is no list${least > 0 ? ` of ${least} or more` : ""}`;
    return first(value.keys(), (index) => shape(value[index], `${place}[${index}]`, nodes));
  };

/** The first where it fits, else what the second says. */
export const either =
  (one: Shape, other: Shape): Shape =>
  (value, place, nodes) =>
    one(value, place, nodes) === undefined ? undefined : other(value, place, nodes);

/** Values by names of whatever kind. */
export const mapOf =
  (shape: Shape): Shape =>
  (value, place, nodes) => {
    if (!isFields(value)) return `${place} is no mapping`;
    return first(Object.keys(value), (key) => shape(value[key], `${place}.${key}`, nodes));
  };

/** Named values, those in `optional` only where they are there; others are nobody's business. */
export const fields =
  (required: Readonly<Record<string, Shape>>, optional: Readonly<Record<string, Shape>> = {}): Shape =>
  (value, place, nodes) => {
    if (!isFields(value)) return `${place} is no mapping`;
    const asked = [...Object.entries(required), ...Object.entries(optional).filter(([key]) => value[key] !== undefined)];
    return first(asked, ([key, shape]) => shape(own(value, key), place === "" ? key : `${place}.${key}`, nodes));
  };

/** By the text at `key`, the shape of the whole. */
export const byKind =
  (key: string, kinds: Readonly<Record<string, Shape | { readonly shape: Shape }>>): Shape =>
  (value, place, nodes) => {
    const kind = isFields(value) ? own(value, key) : undefined;
    const known = typeof kind === "string" && Object.hasOwn(kinds, kind) ? kinds[kind] : undefined;
    if (known === undefined) return `${place} is of no ${key} that this library knows`;
    return (typeof known === "function" ? known : known.shape)(value, place, nodes);
  };

export function isFields(value: unknown): value is Fields {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function own(value: Fields, key: string): unknown {
  return Object.hasOwn(value, key) ? value[key] : undefined;
}

function first<T>(items: Iterable<T>, fault: (item: T) => string | undefined): string | undefined {
  for (const item of items) {
    const found = fault(item);
    if (found !== undefined) return found;
  }
  return undefined;
}
