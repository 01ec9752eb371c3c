/** Formula text cut into tokens, as types: every token is followed by one space. */

export type Comparison = "<" | ">" | "<=" | ">=" | "==" | "!=";
export type Operator = "(" | ")" | "," | "+" | "-" | "*" | "/" | "^" | "=" | Comparison;

// Comparisons of two characters are kept whole by a sign of one character that formulas do not use.
type Shorten<S extends string> = Swap<Swap<Swap<Swap<S, "<=", "≤">, ">=", "≥">, "==", "≡">, "!=", "≠">;
type Swap<S extends string, F extends string, T extends string, D extends string = ""> = S extends `${infer L}${F}${infer R}`
  ? Swap<R, F, T, `${D}${L}${T}`>
  : `${D}${S}`;
type Pad<S extends string, F extends string, T extends string = F> = Swap<S, F, ` ${T} `>;

type Spaces<S extends string> = Swap<Swap<S, "\t", " ">, "\n", " ">;
type Arithmetic<S extends string> = Pad<Pad<Pad<Pad<Pad<Pad<Pad<S, "(">, ")">, "+">, "-">, "*">, "/">, "^">;
type Commas<S extends string> = S extends `${string},${string}` ? Pad<S, ","> : S;
type Relations<S extends string> = S extends `${string}${"<" | ">" | "=" | "!"}${string}`
  ? Pad<Pad<Pad<Pad<Pad<Pad<Pad<Shorten<S>, "<">, ">">, "=">, "≤", "<=">, "≥", ">=">, "≠", "!=">, "≡", "==">
  : S;

/** One space between tokens, one at the end, none at the start. */
type Squeeze<S extends string> = S extends `${string}  ${string}` ? Squeeze<Swap<S, "  ", " ">> : S extends ` ${infer R}` ? R : S;

export type Tokens<S extends string> = Squeeze<`${Relations<Commas<Arithmetic<Spaces<S>>>>} `>;
