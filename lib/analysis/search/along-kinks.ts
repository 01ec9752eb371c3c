/**
 * Directions along the kinks and edges of branches that pass through a point. Where max, min or abs changes its operand the values may
 * rise along the kink alone, a direction that no poll of coordinates meets. The normal of each kink is the gradient of its guide; what
 * is left of the values' gradient across none of them leads along all; what is left of one normal leads off that kink alone, along
 * the others (projected gradients; Nocedal and Wright, Numerical Optimization, 2nd ed., 16.7; from memory).
 */
import { dot } from "./climb";
import type { Objective } from "./objective";
import { type At, Points } from "./points";
import type { Sample } from "./sample";

/** A kink is near where its guide is below this part of the largest value seen. */
const near = 1e-4;
const step = 1e-6;

export function alongKinks(
  objective: Objective,
  { guides, points }: Sample,
): ((at: At, gradient: Float64Array) => Float64Array[]) | undefined {
  const kinks = [...objective.guides.keys()].filter((j) => objective.guides[j] !== "value");
  if (objective.isCostly || kinks.length === 0) return undefined;
  const scales = kinks.map((j) =>
    (guides[j] as Float64Array).subarray(0, points.n).reduce((most, value) => Math.max(most, Math.abs(value)), 0),
  );
  return (at, gradient) => {
    const normals = normalsAt(objective, kinks, scales, at);
    if (normals.length === 0) return [];
    const others = normals.map((normal, i) => residual(normal, normals.toSpliced(i, 1)));
    return [residual(gradient, normals), ...others].flatMap((direction) => {
      const most = direction.reduce((m, part) => Math.max(m, Math.abs(part)), 0);
      return most > 1e-9 ? [direction.map((part) => part / most)] : [];
    });
  };
}

/** Gradients of the kinks near a point; of coordinates at a limit, nothing. */
function normalsAt(objective: Objective, kinks: readonly number[], scales: readonly number[], at: At): Float64Array[] {
  const points = new Points(at.length, 2 * at.length + 1);
  points.add(at);
  at.forEach((t, k) => {
    for (const side of [step, -step]) points.addMoved(at, k, Math.max(0, Math.min(1, t + side)));
  });
  const { guides } = objective.evaluateGuided(points.columns, points.n);
  return kinks.flatMap((j, i) => {
    const column = guides[j] as Float64Array;
    if (!(Math.abs(column[0] as number) <= near * (scales[i] as number))) return [];
    return [at.map((t, k) => (t <= 0 || t >= 1 ? 0 : ((column[2 * k + 1] as number) - (column[2 * k + 2] as number)) / (2 * step)))];
  });
}

/** What is left of a direction when its parts along others are taken away, these made orthogonal first (Gram and Schmidt). */
function residual(direction: Float64Array, others: readonly Float64Array[]): Float64Array {
  const basis: Float64Array[] = [];
  const without = (vector: Float64Array): Float64Array =>
    basis.reduce((rest, unit) => {
      const part = dot(rest, unit);
      return rest.map((own, k) => own - part * (unit[k] as number));
    }, vector);
  for (const other of others) {
    const rest = without(other);
    const length = Math.sqrt(dot(rest, rest));
    if (length > 1e-9 * Math.sqrt(dot(other, other))) basis.push(rest.map((part) => part / length));
  }
  return without(direction);
}
