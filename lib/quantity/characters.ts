/**
 * Characters that look alike, made one before anything is read. Each maps to exactly one, so that columns in
 * messages stay those of the author's text.
 */
const replacements: Readonly<Record<string, string>> = {
  "\u03bc": "µ", // Greek mu for the micro sign U+00B5
  "\u2126": "Ω", // ohm sign for capital omega U+03A9
  "\u212a": "K", // kelvin sign
  "\u212b": "Å", // angstrom sign
  "\u00ba": "°", // ordinal indicator for the degree sign
  "\u2212": "-",
  "\u2010": "-",
  "\u2011": "-", // minus and hyphens
  "\u22c5": "·",
  "\u2219": "·",
  "\u2022": "·", // dots
  "\u2215": "/",
  "\u2044": "/", // slashes
  "\u2032": "′",
  "\u2033": "″",
  "\u00a0": " ",
  "\u2009": " ",
  "\u202f": " ",
  "\u2007": " ",
  "\t": " ",
  "\n": " ",
  "\r": " ", // spaces, and the line ends of a folded text
};

const any = new RegExp(`[${Object.keys(replacements).join("")}]`, "gu");

/** The text with one character for each meaning; of the same length. */
export function sameCharacters(text: string): string {
  return text.replace(any, (character) => replacements[character] as string);
}

/** The text for a message, cut where it is longer than a line. */
export function excerpt(text: string): string {
  return text.length <= 80 ? text : `${text.slice(0, 79)}…`;
}
