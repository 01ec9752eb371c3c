/**
 * Text for a terminal: what a name, a note or an error holds is shown, never obeyed. Control characters (a terminal erases, colours and
 * renames by them), marks that reverse the direction of the text, other line ends and unpaired surrogates are written as `\u001b`. That is JSON's
 * escape too: a JSON text reads the same afterwards. Tabs and line feeds stay.
 */
export function terminalText(text: string): string {
  return text.replace(unsafe, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

// Unicode's Bidi_Control, the line and paragraph separators, the byte order mark.
const unsafe = /(?![\n\t])[\p{Cc}\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]|\p{Cs}/gu;
