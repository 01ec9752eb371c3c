/**
 * Symbols as LaTeX, by ISO 80000-1 7.1: quantities italic, descriptive subscripts upright, Greek letters by name
 * or as themselves. `R_g` → `R_{\mathrm{g}}`, `theta_JA` and `θ_JA` → `\theta_{\mathrm{JA}}`, `R1` → `R_{1}`.
 */

const greekNames = [
  "alpha",
  "beta",
  "gamma",
  "delta",
  "epsilon",
  "zeta",
  "eta",
  "theta",
  "iota",
  "kappa",
  "lambda",
  "mu",
  "nu",
  "xi",
  "omicron",
  "pi",
  "rho",
  "sigma",
  "tau",
  "upsilon",
  "phi",
  "chi",
  "psi",
  "omega",
];
const greekLetters = "αβγδεζηθικλμνξοπρστυφχψω";
const greekCapitals = "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩ";
/** Capitals that look like Latin ones have no command. */
const capitalCommands = new Set(["Gamma", "Delta", "Theta", "Lambda", "Xi", "Pi", "Sigma", "Upsilon", "Phi", "Psi", "Omega"]);

const commands = new Map<string, string>(
  greekNames.flatMap((name, i): [string, string][] => {
    const capital = (name[0] as string).toUpperCase() + name.slice(1);
    const lower = `\\${name === "epsilon" || name === "phi" ? "var" : ""}${name}`;
    const upper = capitalCommands.has(capital) ? `\\${capital}` : `\\mathrm{${name === "omicron" ? "O" : capital[0]}}`;
    return [
      [name, lower],
      [greekLetters[i] as string, lower],
      [capital, upper],
      [greekCapitals[i] as string, upper],
    ];
  }),
);
commands
  .set("eps", "\\varepsilon")
  .set("µ", "\\mu")
  .set("ϑ", "\\vartheta")
  .set("ϕ", "\\phi")
  .set("ϵ", "\\epsilon")
  .set("Ω", "\\Omega")
  .set("∆", "\\Delta")
  .set("ℓ", "\\ell");

/** LaTeX of a symbol's name. Any name gives LaTeX that renders. */
export function typesetSymbol(name: string): string {
  const [, head = "", tail = ""] = /^([^_]*)(.*)$/su.exec(name) ?? [];
  const [, bare = "", primes = ""] = /^(.*?)('*)$/su.exec(head) ?? [];
  const [, letters = "", digits = ""] = /^(.*?)(\d*)$/su.exec(bare) ?? [];
  // A name of digits only, or none before its underscore, stays as it is.
  const subscripts = [...(letters === "" ? [] : [digits]), ...tail.split("_")].filter((part) => part !== "");
  const subscript = subscripts.length === 0 ? "" : `_{${subscripts.map(typesetSubscript).join(",")}}`;
  return `${typesetHead(letters === "" ? digits : letters)}${primes}${subscript}`;
}

function typesetHead(text: string): string {
  const command = commands.get(text);
  if (command !== undefined) return command;
  const [, difference, rest] = /^(Δ|∆|Delta|d|δ)(\p{L}\p{L}?)$/u.exec(text) ?? [];
  if (difference !== undefined && rest !== undefined) return typesetDifference(difference, rest, text);
  return [...text].length === 1 ? letter(text) : `\\mathit{${plain(text)}}`;
}

/** ΔT is a difference of T; dT, which only keyboards without Greek write, stays one italic name. */
function typesetDifference(difference: string, rest: string, text: string): string {
  if (difference === "d") return `\\mathit{${plain(text)}}`;
  return `${commands.get(difference)} ${typesetHead(rest)}`;
}

function typesetSubscript(text: string): string {
  if (/^\d+$/.test(text)) return text;
  return commands.get(text) ?? `\\mathrm{${plain(text)}}`;
}

function plain(text: string): string {
  return [...text].map(letter).join("");
}

/** One character; what LaTeX reads as a command is escaped. */
function letter(character: string): string {
  const command = commands.get(character);
  // The space ends the command's name.
  if (command !== undefined) return `${command} `;
  if (/[\p{L}\p{N}]/u.test(character)) return character;
  if (/[#$%&{}_]/.test(character)) return `\\${character}`;
  if (character === "\\") return "\\backslash ";
  return character === "'" ? "'" : `\\text{${character.replace(/[~^`]/g, "?")}}`;
}
