/**
 * Values between the inputs of a law and its result that lead a search to places which the result alone does not show: both sides of a
 * comparison, the operands of max, min and abs, divisors, and what goes into functions and products. A branch is reached where its
 * comparison turns over, a resonance where a reactance passes through zero, a peak of exp where its argument is highest.
 */
import { BlockPlan } from "../../graph/block";
import { Code, special } from "../../graph/code";
import type { NodeId } from "../../graph/node";
import type { Program } from "../../graph/program";
import type { ProgramState } from "../../graph/state";
import { wordsPerInstruction } from "../../graph/tape";

/** `branch`: where a comparison turns over; `kink`: where max, min or abs changes its operand; `value`: any other. */
export type GuideKind = "branch" | "kink" | "value";

export interface Guide {
  readonly kind: GuideKind;
  /** The value of a slot, or that of the first less the second. */
  readonly slots: readonly [number] | readonly [number, number];
}

/** Guides at most; branches and kinks come first. */
const most = 40;

export class Guides {
  readonly list: readonly Guide[];
  readonly #program: Program;
  readonly #own: readonly number[];
  readonly #slots: readonly number[];
  readonly #state: ProgramState;
  /** Made when it is first wanted: a law with its extremes at corners never does. */
  #plan: BlockPlan | undefined;

  /** `main` computes `output` from `inputs`. */
  constructor(program: Program, state: ProgramState, inputs: readonly NodeId[], output: NodeId, main: BlockPlan) {
    this.#program = program;
    this.#own = inputs.map((id) => program.slot(id));
    this.#state = state;
    this.list = guidesOf(program, main, new Set(this.#own), program.slot(output));
    this.#slots = [...new Set([program.slot(output), ...this.list.flatMap(({ slots }) => [...slots])])];
  }

  /** A column of the result, then one of each guide; `columns` are those of the inputs, SI. */
  columns(columns: readonly Float64Array[], n: number): Float64Array[] {
    this.#plan ??= new BlockPlan(this.#program.tape, this.#own, this.#slots);
    const found = this.#plan.run(this.#state, n, columns) as Float64Array[];
    const bySlot = new Map(this.#slots.map((slot, i) => [slot, found[i] as Float64Array]));
    const guides = this.list.map(({ slots: [a, b] }) => {
      const first = bySlot.get(a) as Float64Array;
      if (b === undefined) return first;
      const second = bySlot.get(b) as Float64Array;
      return first.map((value, i) => value - (second[i] as number));
    });
    return [found[0] as Float64Array, ...guides];
  }
}

function guidesOf({ tape }: Program, plan: BlockPlan, own: ReadonlySet<number>, output: number): Guide[] {
  const found = new Map<string, Guide>();
  const isInside = (slot: number): boolean => plan.isVarying(slot) && !tape.curveSlots.has(slot);
  const add = (kind: GuideKind, slots: Guide["slots"]): void => {
    if (slots.length === 1 ? !isInside(slots[0]) || own.has(slots[0]) || slots[0] === output : !slots.some(isInside)) return;
    const key = slots.join();
    if (!found.has(key) || kind !== "value") found.set(key, { kind, slots });
  };
  for (const at of plan.positions) {
    const [operation, , a, b, c] = tape.words.subarray(at, at + wordsPerInstruction) as unknown as [number, number, number, number, number];
    if (operation === special) for (const slot of tape.specials[a]?.inputs ?? []) add("value", [slot]);
    else for (const guide of ofInstruction(operation, a, b, c)) add(guide.kind, guide.slots);
  }
  const order: readonly GuideKind[] = ["branch", "kink", "value"];
  return order.flatMap((kind) => [...found.values()].filter((guide) => guide.kind === kind)).slice(0, most);
}

function ofInstruction(operation: number, a: number, b: number, c: number): Guide[] {
  const values = (...slots: number[]): Guide[] => slots.map((slot) => ({ kind: "value", slots: [slot] }));
  if (operation >= Code.less && operation <= Code.unequal) return [{ kind: "branch", slots: [a, b] }];
  if (operation === Code.min || operation === Code.max) return [{ kind: "kink", slots: [a, b] }, ...values(a, b)];
  if (operation === Code.abs || operation === Code.sign) return [{ kind: "kink", slots: [a] }];
  if (operation === Code.if) return values(b, c);
  if (operation === Code.add || operation === Code.subtract || operation === Code.negate) return [];
  return values(a, b, c);
}
