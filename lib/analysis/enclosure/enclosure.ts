/**
 * What is known of a result over a whole box of its inputs, without trying points: an interval that holds all its values, and which
 * way it goes along each input. Both are carried through the operations one after another: intervals by `interval.ts`; ways by the
 * signs of the derivatives, which the intervals of the operands tell (a product rises with a factor while the other is above 0). A
 * model is known as far as it declares which way its outputs go (`Model.ways`): its interval is then between its values at two places.
 */
import { Code, operationsByCode, special } from "../../graph/code";
import type { CurveData } from "../../graph/curve";
import { curveAt } from "../../graph/interpolate";
import type { AnyModel } from "../../graph/model";
import { evaluateModel, modelOutput, type ProgramState, toArgument } from "../../graph/state";
import type { CurveReading, ModelCall, Special, Tape } from "../../graph/tape";
import { wordsPerInstruction } from "../../graph/tape";
import { risingFunctions } from "../rising";
import { both, type Heading, lost, standsStill, turned, unknown, type Way } from "./heading";
import { add, around, at, divide, holdsZero, hull, type Interval, multiply, negate, power, signOf, square, wave, whole } from "./interval";

export interface Known {
  readonly interval: Interval;
  readonly heading: Heading;
}

/** Slots of the inputs with their intervals, and the way each goes along the coordinates of the box. */
export interface Box {
  readonly slots: readonly number[];
  readonly known: readonly Known[];
  readonly dimensions: number;
}

/** Of the output, over a box about a state; `positions`: the instructions to run. Names of the models whose declared ways it rests on. */
export function enclose(
  tape: Tape<unknown>,
  positions: readonly number[],
  state: ProgramState,
  box: Box,
  output: number,
): Known & { readonly given: readonly string[] } {
  const walk = new Walk(tape, state, box);
  for (const position of positions) walk.step(position);
  return { ...walk.get(output), given: [...walk.given] };
}

const keepsSign: ReadonlySet<number> = new Set([Code.cbrt, Code.asin, Code.atan, Code.sinh, Code.tanh, Code.sign]);
const whollyDefined: ReadonlySet<number> = new Set([...keepsSign, Code.exp, Code.ceil, Code.floor, Code.round]);

class Walk {
  readonly given = new Set<string>();
  readonly #tape: Tape<unknown>;
  readonly #state: ProgramState;
  readonly #still: Heading;
  readonly #known = new Map<number, Known>();
  /** Outputs of special instructions that nothing has asked for yet: of many models one output is used. */
  readonly #pending = new Map<number, () => Known>();

  constructor(tape: Tape<unknown>, state: ProgramState, box: Box) {
    this.#tape = tape;
    this.#state = state;
    this.#still = new Int8Array(box.dimensions);
    box.slots.forEach((slot, i) => {
      this.#known.set(slot, box.known[i] as Known);
    });
  }

  get(slot: number): Known {
    const asked = this.#pending.get(slot);
    if (asked !== undefined) {
      this.#pending.delete(slot);
      this.#known.set(slot, asked());
    }
    return this.#known.get(slot) ?? { interval: at(this.#state.values[slot] as number), heading: this.#still };
  }

  step(position: number): void {
    const { words, specials } = this.#tape;
    const [code, out, a, b, c] = words.subarray(position, position + wordsPerInstruction) as unknown as [
      number,
      number,
      number,
      number,
      number,
    ];
    if (code === special) this.#special(specials[a] as Special<unknown>);
    else this.#known.set(out, this.#operation(code, a, b, c));
  }

  #operation(code: Code, p: number, q: number, r: number): Known {
    const [a, b] = [this.get(p), this.get(q)];
    if (risingFunctions.has(code)) return risen(code, a);
    switch (code) {
      case Code.add:
        return { interval: add(a.interval, b.interval), heading: both(a.heading, b.heading) };
      case Code.subtract:
        return { interval: add(a.interval, negate(b.interval)), heading: both(a.heading, turned(b.heading, -1)) };
      case Code.negate:
        return { interval: negate(a.interval), heading: turned(a.heading, -1) };
      case Code.multiply:
        return p === q ? squared(a) : product(a, b);
      case Code.divide:
        return quotient(a, b);
      case Code.power:
        return raised(a, b);
      case Code.abs:
        return absolute(a);
      case Code.min:
      case Code.max:
        return lesserOrGreater(code, a, b);
      case Code.acos:
        return { interval: ends(code, a.interval, true), heading: turned(a.heading, -1) };
      case Code.sin:
      case Code.cos:
        return swinging(code, a);
      case Code.cosh:
        return even(a, (x) => value(code, x));
      case Code.tan:
        return tangent(a);
      case Code.if:
        return chosen(a, b, this.get(r));
      case Code.less:
      case Code.lessEqual:
      case Code.greater:
      case Code.greaterEqual:
        return compared(code, a, b);
      default:
        return this.#anything([a, b, this.get(r)]);
    }
  }

  #anything(operands: readonly Known[]): Known {
    return { interval: whole, heading: lost(operands.map(({ heading }) => heading).reduce(both, this.#still)) };
  }

  #special(call: Special<unknown>): void {
    for (const [i, slot] of call.outputs.entries()) this.#pending.set(slot, () => this.#specialOutput(call, i));
  }

  #specialOutput(call: Special<unknown>, i: number): Known {
    if (call.kind === "model") return this.#model(call, call.outputNames[i] as string);
    if (call.kind === "curve-operation") return this.#reading(call);
    return this.#anything(call.inputs.map((slot) => this.get(slot)));
  }

  /** Whether a curve is not the one of the state. */
  #isMoved(slot: number): boolean {
    return this.#tape.curveSlots.has(slot) && !standsStill(this.get(slot).heading);
  }

  #model(call: ModelCall, output: string): Known {
    const operands = call.inputs.map((slot) => this.get(slot));
    const anything = this.#anything(operands);
    if (call.inputs.some((slot) => this.#isMoved(slot))) return anything;
    const ways = this.#waysOf(call, operands)[output] ?? {};
    const way = (k: number): Way => ways[call.symbols[k] as string] ?? unknown;
    const moving = operands.map((_, k) => k).filter((k) => !standsStill((operands[k] as Known).heading));
    const heading = moving
      .map((k) => (way(k) === unknown ? lost((operands[k] as Known).heading) : turned((operands[k] as Known).heading, way(k) as 1 | -1)))
      .reduce(both, this.#still);
    if (moving.some((k) => way(k) === unknown)) return { interval: whole, heading };
    const [low, high] = ([-1, 1] as const).map((end) => this.#modelAt(call, output, operands, (k) => way(k) === end));
    const interval = around(low as number, high as number);
    if (interval === whole) return anything;
    this.given.add(call.model.name);
    return { interval, heading };
  }

  /** None where an input may leave the range that the model is stated for. */
  #waysOf({ model, symbols, inputs }: ModelCall, operands: readonly Known[]): ReturnType<NonNullable<AnyModel["ways"]>> {
    if (model.ways === undefined) return {};
    const over = symbols.map((symbol, k) => {
      const curve = this.#state.curves[inputs[k] as number];
      return [symbol, curve ?? (operands[k] as Known).interval] as const;
    });
    const ranges = new Map(over);
    const isInside = (model.valid ?? []).every(({ symbol, low, high }) => {
      const range = ranges.get(symbol);
      return range === undefined || !("low" in range) || (range.low >= low && range.high <= high);
    });
    return isInside ? model.ways(Object.fromEntries(over)) : {};
  }

  /** The model with each input at its upper end or at its lower one. */
  #modelAt(call: ModelCall, output: string, operands: readonly Known[], atUpper: (k: number) => boolean): number {
    const args = Object.fromEntries(
      call.symbols.map((symbol, k) => {
        const slot = call.inputs[k] as number;
        if (this.#tape.curveSlots.has(slot)) return [symbol, toArgument(this.#state.curves[slot])];
        const { low, high } = (operands[k] as Known).interval;
        return [symbol, atUpper(k) ? high : low];
      }),
    );
    const found = modelOutput(call, evaluateModel(call, args, false), output, false);
    return typeof found === "number" ? found : Number.NaN;
  }

  /** A point of a curve that stands still: between the points that its place can lie among. */
  #reading({ node, inputs }: CurveReading): Known {
    const [curveSlot, argument] = inputs as readonly [number, number | undefined];
    const curve = this.#state.curves[curveSlot];
    const operands = inputs.map((slot) => this.get(slot));
    if (this.#isMoved(curveSlot) || curve === undefined || argument === undefined || node.operation !== "at")
      return this.#anything(operands);
    return readAt(curve, this.get(argument)) ?? this.#anything(operands);
  }
}

const value = (code: Code, x: number): number => (operationsByCode[code] as (x: number) => number)(x);

function ends(code: Code, { low, high }: Interval, isFalling = false, sign: -1 | 0 | 1 = 0): Interval {
  const [first, last] = [value(code, low), value(code, high)];
  return isFalling ? around(last, first, sign) : around(first, last, sign);
}

function risen(code: Code, a: Known): Known {
  const isDefined = whollyDefined.has(code) || Number.isFinite(value(code, a.interval.low));
  const sign = code === Code.sqrt || code === Code.exp ? 1 : keepsSign.has(code) ? signOf(a.interval) : 0;
  const interval = isDefined ? ends(code, a.interval, false, sign) : whole;
  return { interval, heading: interval === whole ? lost(a.heading) : a.heading };
}

function squared(a: Known): Known {
  return { interval: square(a.interval), heading: turned(a.heading, signOf(a.interval)) };
}

function product(a: Known, b: Known): Known {
  const heading = both(turned(a.heading, signOf(b.interval)), turned(b.heading, signOf(a.interval)));
  return { interval: multiply(a.interval, b.interval), heading };
}

function quotient(a: Known, b: Known): Known {
  if (holdsZero(b.interval)) return { interval: whole, heading: lost(both(a.heading, b.heading)) };
  const byDivisor = turned(b.heading, (-signOf(a.interval) || 0) as -1 | 0 | 1);
  return { interval: divide(a.interval, b.interval), heading: both(turned(a.heading, signOf(b.interval)), byDivisor) };
}

function raised(a: Known, b: Known): Known {
  const interval = power(a.interval, b.interval);
  const all = lost(both(a.heading, b.heading));
  if (interval === whole) return { interval, heading: all };
  if (a.interval.low >= 0) {
    const byBase = turned(a.heading, signOf(b.interval));
    const logarithm = a.interval.low >= 1 ? 1 : a.interval.high <= 1 ? -1 : 0;
    return { interval, heading: both(byBase, turned(b.heading, logarithm)) };
  }
  // An integer exponent that does not vary.
  const n = b.interval.low;
  const sign = n % 2 === 0 ? signOf(a.interval) : 1;
  return { interval, heading: turned(a.heading, (n === 0 ? 1 : sign * Math.sign(n)) as -1 | 0 | 1) };
}

function absolute(a: Known): Known {
  return even(a, Math.abs);
}

/** A function that is least at 0 and the same on both sides. */
function even({ interval, heading }: Known, of: (x: number) => number): Known {
  const [p, q] = [of(interval.low), of(interval.high)];
  const least = holdsZero(interval) ? of(0) : Math.min(p, q);
  return { interval: around(least, Math.max(p, q), 1), heading: turned(heading, signOf(interval)) };
}

function lesserOrGreater(code: Code, a: Known, b: Known): Known {
  const of = code === Code.min ? Math.min : Math.max;
  const [lower, upper] = a.interval.high <= b.interval.low ? [a, b] : b.interval.high <= a.interval.low ? [b, a] : [];
  const only = code === Code.min ? lower : upper;
  const interval = { low: of(a.interval.low, b.interval.low), high: of(a.interval.high, b.interval.high) };
  return only ?? { interval, heading: both(a.heading, b.heading) };
}

function swinging(code: Code, a: Known): Known {
  const shift = code === Code.sin ? 0 : Math.PI / 2;
  const slope = wave(a.interval, shift + Math.PI / 2, (x) => value(Code.cos, x + (code === Code.sin ? 0 : Math.PI / 2)));
  return { interval: wave(a.interval, shift, (x) => value(code, x)), heading: turned(a.heading, signOf(slope)) };
}

function tangent(a: Known): Known {
  const { low, high } = a.interval;
  const [first, last] = [low, high].map((x) => Math.floor(x / Math.PI + 0.5));
  const isClear = first === last && [low, high].every((x) => Math.abs(value(Code.cos, x)) > 1e-9);
  return isClear ? { interval: ends(Code.tan, a.interval), heading: a.heading } : { interval: whole, heading: lost(a.heading) };
}

function chosen(condition: Known, yes: Known, no: Known): Known {
  const { low, high } = condition.interval;
  if (low === 0 && high === 0) return no;
  if (low > 0 || high < 0) return yes;
  // Crossing from one branch to the other, it may go anywhere.
  const heading = both(both(yes.heading, no.heading), lost(condition.heading));
  return { interval: hull(yes.interval, no.interval), heading };
}

function compared(code: Code, a: Known, b: Known): Known {
  const turn = code === Code.less || code === Code.lessEqual;
  const [x, y] = turn ? [b, a] : [a, b];
  // x > y (or x ≥ y): true everywhere, false everywhere, or rising with x and falling with y.
  const strict = code === Code.less || code === Code.greater;
  const isTrue = strict ? x.interval.low > y.interval.high : x.interval.low >= y.interval.high;
  const isFalse = strict ? x.interval.high <= y.interval.low : x.interval.high < y.interval.low;
  if (isTrue || isFalse) return { interval: at(isTrue ? 1 : 0), heading: a.heading.map(() => 0) };
  return { interval: { low: 0, high: 1 }, heading: both(x.heading, turned(y.heading, -1)) };
}

function readAt(curve: CurveData, { interval, heading }: Known): Known | undefined {
  const { x, y } = curve;
  const [from, to] = [x[0] as number, x[x.length - 1] as number];
  // A place that rounding has put beside the ends is at them; one outside has no value.
  const slackAt = (place: number): number => 1e-12 * Math.max(Math.abs(place), to - from);
  if (interval.low < from - slackAt(from) || interval.high > to + slackAt(to)) return undefined;
  const [low, high] = [Math.max(from, interval.low), Math.min(to, interval.high)];
  const between = Array.from(x.keys())
    .filter((i) => (x[i] as number) > low && (x[i] as number) < high)
    .map((i) => y[i] as number);
  const values = [curveAt(curve, low), ...between, curveAt(curve, high)];
  const steps = values.slice(1).map((next, i) => Math.sign(next - (values[i] as number)));
  const sign = steps.every((step) => step >= 0) ? 1 : steps.every((step) => step <= 0) ? -1 : 0;
  return { interval: around(Math.min(...values), Math.max(...values)), heading: turned(heading, sign) };
}
