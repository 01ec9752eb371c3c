/**
 * Angles less whole quarter turns. Up to |x| = 2²⁰ by Cody and Waite's π/2 in three parts (fdlibm's e_rem_pio2.c), of which
 * the first has 33 bits, so that a whole number up to 2²⁰ times it is exact. Beyond, in whole numbers as long as it takes.
 */
/** x = turns·π/2 + r + tail with |r| ≤ π/4 (turns modulo 4 beyond 2²⁰). */
export interface QuarterTurns {
  readonly turns: number;
  readonly r: number;
  readonly tail: number;
}

const near = 1048576;

/** Of any x in radians; NaN of infinities. */
export function quarterTurns(x: number): QuarterTurns {
  if (!(Math.abs(x) <= near)) return Number.isFinite(x) ? farTurns(x) : { turns: 0, r: Number.NaN, tail: 0 };
  const turns = Math.round(x / (Math.PI / 2));
  const first = x - turns * 1.5707963267341256;
  const part = turns * 6.077100506303966e-11;
  const second = first - part;
  const lost = turns * 2.0222662487959506e-21 - (first - second - part);
  // Close to a multiple of π/2 the third part of π/2 counts.
  return turns !== 0 && Math.abs(second - lost) < 1e-9 ? closeTurns(turns, second) : summed(turns, second, lost);
}

function closeTurns(turns: number, second: number): QuarterTurns {
  const part = turns * 2.0222662487111665e-21;
  const third = second - part;
  return summed(turns, third, turns * 8.4784276603689e-32 - (second - third - part));
}

/** a − b as a rounded difference and what its rounding lost. */
function summed(turns: number, a: number, b: number): QuarterTurns {
  const r = a - b;
  return { turns, r, tail: a - r - b };
}

/** Angles in units of 2⁻¹²⁰⁰: with the 1024 bits of the largest double, 176 remain below the quarter turn. */
const fine = 1200;
/** Bits kept of the remainder: no double comes closer to a multiple of π/2 than 2⁻⁶². */
const kept = 200;

function farTurns(x: number): QuarterTurns {
  quarterTurn ??= machin();
  // From 2²⁰ on a double is a whole number of 2⁻³²; the large ones are whole as they are.
  const a = Math.abs(x);
  const angle = a < 2 ** 53 ? BigInt(a * 2 ** 32) << BigInt(fine - 32) : BigInt(a) << BigInt(fine);
  const turns = (2n * angle + quarterTurn) / (2n * quarterTurn);
  const rest = (angle - turns * quarterTurn) >> BigInt(fine - kept);
  const head = Number(rest);
  const sign = x < 0 ? -1 : 1;
  const unit = sign * 2 ** -200;
  return { turns: sign * Number(turns & 3n), r: head * unit, tail: Number(rest - BigInt(head)) * unit };
}

let quarterTurn: bigint | undefined;

/** π/2 = 8·arctan(1/5) − 2·arctan(1/239), J. Machin 1706. */
function machin(): bigint {
  return 8n * inverseTangent(5n) - 2n * inverseTangent(239n);
}

/** arctan(1/n). */
function inverseTangent(n: bigint): bigint {
  let sum = 0n;
  let power = (1n << BigInt(fine)) / n;
  for (let k = 1n; power !== 0n; k += 2n) {
    sum += power / k;
    power = -power / (n * n);
  }
  return sum;
}
