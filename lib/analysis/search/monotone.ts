/**
 * Whether a law can have its extremes at corners alone, seen from its operations: along every input, the others standing still, it
 * never turns round. Of each intermediate value it is known how it goes along each input: not at all, straight (affine), one way
 * (monotone), or anyhow. Sums keep "straight", and "one way" where the other summand does not move; products of values that share
 * no input keep both; a quotient whose divisor keeps its sign, both straight, goes one way; so does a rising function of a value
 * that does. A function that goes one way along every input has its extremes over a box at corners: each coordinate can be moved to
 * an end without loss, one after another.
 */
import type { BlockPlan } from "../../graph/block";
import { Code, special } from "../../graph/code";
import { type Tape, wordsPerInstruction } from "../../graph/tape";
import { risingFunctions } from "../rising";

export interface Monotone {
  /** True where the extremes lie at corners, if the values of `definite` keep their sign. */
  readonly isAtCorners: boolean;
  /** Slots, each itself with its extremes at corners, that must not reach zero. */
  readonly definite: readonly number[];
}

const still = 0;
const straight = 1;
const oneWay = 2;
const anyhow = 3;

/** How a value goes along each input. */
type Course = Uint8Array;

/** `inputs`: the slots of each coordinate of the box; those of one coordinate move together. */
export function monotone(tape: Tape<unknown>, plan: BlockPlan, inputs: readonly (readonly number[])[], output: number): Monotone {
  const courses = new Courses(inputs);
  for (const at of plan.positions) {
    const [operation, out, a, b, c] = tape.words.subarray(at, at + wordsPerInstruction) as unknown as [
      number,
      number,
      number,
      number,
      number,
    ];
    if (operation === special) for (const slot of tape.specials[a]?.outputs ?? []) courses.set(slot, courses.wild);
    else courses.set(out, courses.of(operation, a, b, c));
  }
  return { isAtCorners: courses.get(output).every((course) => course !== anyhow), definite: courses.definite };
}

class Courses {
  readonly definite: number[] = [];
  readonly wild: Course;
  readonly #rest: Course;
  readonly #bySlot = new Map<number, Course>();

  constructor(inputs: readonly (readonly number[])[]) {
    this.wild = new Uint8Array(inputs.length).fill(anyhow);
    this.#rest = new Uint8Array(inputs.length);
    inputs.forEach((slots, k) => {
      // Parts of the way may be stretched on a scale of decibels: one way. Of several that move together, too.
      for (const slot of slots)
        this.#bySlot.set(
          slot,
          this.#rest.map((_, j) => (j === k ? (slots.length > 1 ? oneWay : straight) : still)),
        );
    });
  }

  get(slot: number): Course {
    return this.#bySlot.get(slot) ?? this.#rest;
  }

  set(slot: number, course: Course): void {
    this.#bySlot.set(slot, course);
  }

  of(operation: number, p: number, q: number, r: number): Course {
    const [a, b, c] = [this.get(p), this.get(q), this.get(r)];
    if (risingFunctions.has(operation) || operation === Code.acos) return bent(a);
    switch (operation) {
      case Code.negate:
        return a;
      case Code.add:
      case Code.subtract:
        return sum(a, b);
      case Code.multiply:
        return p === q ? this.#keepingSign(a, p) : apart(a, b);
      case Code.divide:
        return this.#quotient(a, b, q);
      case Code.power:
        return isStill(b) ? this.#keepingSign(a, p) : this.wild;
      case Code.abs:
        return this.#keepingSign(a, p);
      case Code.min:
      case Code.max:
        return bent(apart(a, b));
      default:
        return isStill(a) && isStill(b) && isStill(c) ? this.#rest : this.wild;
    }
  }

  /** A power or the absolute value of what keeps its sign. */
  #keepingSign(course: Course, slot: number): Course {
    if (isStill(course)) return course;
    if (course.includes(anyhow)) return this.wild;
    this.definite.push(slot);
    return bent(course);
  }

  /** (p + q·x)/(r + s·x) goes one way on either side of its pole. */
  #quotient(a: Course, b: Course, divisor: number): Course {
    if (isStill(b)) return a;
    if (b.includes(anyhow)) return this.wild;
    this.definite.push(divisor);
    return a.map((course, k) => {
      const below = b[k] as number;
      if (below === still) return course;
      if (course === still) return oneWay;
      return course === straight && below === straight ? oneWay : anyhow;
    });
  }
}

const isStill = (course: Course): boolean => course.every((own) => own === still);

function sum(a: Course, b: Course): Course {
  return a.map((own, k) => {
    const other = b[k] as number;
    return own === still || other === still ? own + other : own === straight && other === straight ? straight : anyhow;
  });
}

const bent = (course: Course): Course => course.map((own) => (own === straight ? oneWay : own));

/** Of two values, each input may move one alone. */
function apart(a: Course, b: Course): Course {
  return a.map((own, k) => (own === still || b[k] === still ? own + (b[k] as number) : anyhow));
}
