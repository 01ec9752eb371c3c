/**
 * Laws whose extremes are hard to find and known by another way than search: by brute force over corners, by a closed form, or because
 * the law falls apart into parts of one or two inputs that can be scanned densely. Drawn at random from a seed.
 */
import { Draw, type Ends, hull, type Input, type Law, law, many, nodesOf, num, random, sumOf, times } from "./draw-law";
import { grid } from "./long-search";

/** Gains on an input, offsets, and drifts with a temperature whose nominal is where they vanish. */
function errorBudget(draw: Draw): Law {
  const [gains, offsets, drifts] = [draw.whole(2, 6), draw.whole(1, 8), draw.whole(2, 12)];
  const about = (prefix: string, count: number, half: number): Input[] =>
    many(count, (k) => {
      const own = half * draw.between(0.3, 1);
      return { id: `${prefix}${k}`, low: -own, high: own, nominal: 0 };
    });
  const x: Input = { id: "x", low: -1, high: 1, nominal: 0 };
  const T: Input = { id: "T", low: 25 - draw.between(20, 60), high: 25 + draw.between(20, 60), nominal: 25 };
  const [g, o, d] = [about("g", gains, 0.02), about("o", offsets, 0.01), about("d", drifts, 3e-4)];
  const total = (inputs: readonly Input[]): Ends => sumOf(inputs.map(({ low, high }): Ends => [low, high]));
  const all = [x, T, ...g, ...o, ...d];
  const names = (inputs: readonly Input[]): string => inputs.map(({ id }) => id).join(" + ");
  const ends = [x.low, x.high].flatMap((at) =>
    [T.low, T.high].map((temperature) => sumOf([times(at, total(g)), total(o), times(temperature - 25, total(d))])),
  );
  return law("error budget", all, `x*(${names(g)}) + ${names(o)} + (T - 25)*(${names(d)})`, [
    Math.min(...ends.map(([low]) => low)),
    Math.max(...ends.map(([, high]) => high)),
  ]);
}

/** Sums of products of deviations that all vanish at the nominal. */
function deviations(draw: Draw): Law {
  const groups = many(draw.whole(1, 8), () => draw.whole(2, 4));
  const parts = groups.map((size, g) => {
    const inputs = many(size, (k): Input => {
      const middle = num(draw.between(1, 5));
      return { id: `x${g}_${k}`, low: middle - draw.between(0.2, 1), high: middle + draw.between(0.2, 1), nominal: middle };
    });
    const products = inputs.reduce<number[]>(
      (all, { low, high, nominal }) => all.flatMap((p) => [p * (low - nominal), p * (high - nominal)]),
      [1],
    );
    return { inputs, text: inputs.map(({ id, nominal }) => `(${id} - ${nominal})`).join("*"), ends: hull(products) };
  });
  const inputs = parts.flatMap((part) => part.inputs);
  return law("products of deviations", inputs, parts.map(({ text }) => text).join(" + "), sumOf(parts.map(({ ends }) => ends)));
}

/** Valleys that bend: a steep parabola in the (u, v) plane of each pair. */
function ridges(draw: Draw): Law {
  const steep = num(draw.between(20, 200));
  const parts = many(draw.whole(2, 8), (k) => {
    const bend = num(draw.between(0.5, 1));
    const top = num(draw.between(-0.8, 1.2));
    const u: Input = { id: `u${k}`, low: -1.5, high: 1.6, nominal: draw.between(-1, 1) };
    const v: Input = { id: `v${k}`, low: -0.5, high: 2, nominal: draw.between(0, 1) };
    const value = (a: number, b: number): number => (a - top) ** 2 + steep * (b - bend * a * a) ** 2;
    // Convex in v: its largest value is at an end of it.
    const [, high] = hull([v.low, v.high].flatMap((b) => many(2_001, (i) => value(u.low + ((u.high - u.low) * i) / 2_000, b))));
    return { inputs: [u, v], text: `(u${k} - ${top})^2 + ${steep}*(v${k} - ${bend}*u${k}^2)^2`, high };
  });
  const most = parts.reduce((sum, { high }) => sum + high, 0);
  return law(
    "curved ridges",
    parts.flatMap(({ inputs }) => inputs),
    `3 - (${parts.map(({ text }) => text).join(" + ")})`,
    [3 - most, 3],
  );
}

/** Sines over many periods on a slope. */
function periods(draw: Draw): Law {
  const parts = many(draw.whole(3, 8), (k) => {
    const x: Input = { id: `x${k}`, low: 0, high: num(draw.between(60, 900)), nominal: 30 };
    const [size, slope, phase] = [num(draw.between(0.5, 2)), num((draw.sign() * draw.between(0.2, 1)) / x.high), num(draw.between(0, 6))];
    const value = (t: number): number => size * Math.sin(t + phase) + slope * t;
    return {
      input: x,
      text: `${size}*sin(x${k} + ${phase}) + ${slope}*x${k}`,
      ends: hull(many(200_001, (i) => value((x.high * i) / 200_000))),
    };
  });
  return law(
    "many periods",
    parts.map(({ input }) => input),
    parts.map(({ text }) => text).join(" + "),
    sumOf(parts.map(({ ends }) => ends)),
  );
}

/** Sines of products: the phase of each pair goes through several turns. */
function phases(draw: Draw): Law {
  const parts = many(draw.whole(2, 6), (k) => {
    const [f, t] = [draw.input(`f${k}`, draw.between(4, 9), 1), draw.input(`t${k}`, draw.between(1, 4), 0.9)];
    const size = num(draw.between(0.5, 2));
    return { inputs: [f, t], text: `${size}*sin(f${k}*t${k})`, ends: times(size, sineOver(f.low * t.low, f.high * t.high)) };
  });
  return law(
    "phases",
    parts.flatMap(({ inputs }) => inputs),
    parts.map(({ text }) => text).join(" + "),
    sumOf(parts.map(({ ends }) => ends)),
  );
}

function sineOver(low: number, high: number): Ends {
  const passes = (phase: number): boolean => Math.floor((high - phase) / (2 * Math.PI)) > Math.floor((low - phase) / (2 * Math.PI));
  return [
    passes(-Math.PI / 2) ? -1 : Math.min(Math.sin(low), Math.sin(high)),
    passes(Math.PI / 2) ? 1 : Math.max(Math.sin(low), Math.sin(high)),
  ];
}

/** A series resonance: current against frequency, coil and capacitor; `floor` hides it below another current. */
function resonance(draw: Draw, isHidden: boolean): Law {
  const branches = draw.whole(1, 3);
  const parts = many(branches, (k) => {
    const reactance = draw.between(50, 5000);
    const w = draw.input(`w${k}`, 1, draw.between(0.1, 0.5));
    const [L, C] = [draw.input(`L${k}`, reactance, 0.2 * reactance), draw.input(`C${k}`, 1 / reactance, 0.2 / reactance)];
    const [R, V] = [draw.input(`R${k}`, 1, 0.2), draw.input(`V${k}`, 3, 0.3)];
    const X = [w.low, w.high].flatMap((a) => [L.low, L.high].flatMap((b) => [C.low, C.high].map((c) => a * b - 1 / (a * c))));
    const [least, most] = hull(X);
    const nearest = least <= 0 && most >= 0 ? 0 : Math.min(Math.abs(least), Math.abs(most));
    const farthest = Math.max(Math.abs(least), Math.abs(most));
    return {
      inputs: [w, L, C, R, V],
      text: `V${k}/sqrt(R${k}^2 + (w${k}*L${k} - 1/(w${k}*C${k}))^2)`,
      ends: [V.low / Math.hypot(R.high, farthest), V.high / Math.hypot(R.low, nearest)] as Ends,
    };
  });
  const inputs = parts.flatMap((part) => part.inputs);
  const text = parts.map((part) => part.text).join(" + ");
  const [low, high] = sumOf(parts.map(({ ends }) => ends));
  if (!isHidden) return law("resonance", inputs, text, [low, high]);
  const floor: Input = { id: "I_0", low: 0.4, high: 0.6, nominal: 0.5 };
  return law("resonance inside max", [...inputs, floor], `max(I_0, ${text})`, [Math.max(0.4, low), Math.max(0.6, high)]);
}

/** A branch that is taken near one corner only. */
function branch(draw: Draw): Law {
  const inputs = many(draw.whole(3, 30), (k) => draw.input(`x${k}`, draw.between(1, 5), draw.between(0.2, 1)));
  const signs = inputs.map(() => draw.sign());
  const far = (k: number): number => ((signs[k] as number) > 0 ? inputs[k]?.high : inputs[k]?.low) as number;
  const total = inputs.reduce((sum, _, k) => sum + (signs[k] as number) * far(k), 0);
  const least = Math.min(...inputs.map(({ low, high }) => high - low));
  const limit = num(total - least * draw.between(0.1, 0.8));
  const text = inputs.map(({ id }, k) => `${(signs[k] as number) > 0 ? "+" : "-"} ${id}`).join(" ");
  const [first, second] = [inputs[0] as Input, inputs[1] as Input];
  const jump = num(draw.between(3, 10) * draw.sign());
  // In the branch the first input alone counts; elsewhere the second alone, with both its ends.
  const slope = num(draw.between(0.1, 0.5) * (signs[0] as number) * Math.sign(jump));
  const inside = jump + slope * (far(0) - first.nominal);
  const outside: Ends = [second.low - second.nominal, second.high - second.nominal];
  return law(
    "branch near a corner",
    inputs,
    `if(0 ${text} > ${limit}, ${jump} + ${slope}*(x0 - ${first.nominal}), x1 - ${second.nominal})`,
    [Math.min(inside, outside[0]), Math.max(inside, outside[1])],
  );
}

/** A valley along the crossing of many kinks: minus a sum of absolute values of linear forms that vanish at one point inside. */
function kinks(draw: Draw): Law {
  const d = draw.whole(3, 9);
  const inputs = many(d, (k) => draw.input(`x${k}`, 0, 1));
  const bottom = inputs.map(({ low, high }) => low + (high - low) * draw.between(0.2, 0.8));
  const rows = many(d, (j) => many(d, (k) => num(draw.between(-1, 1) + (j === k ? 1.5 : 0))));
  const rest = rows.map((row) => num(row.reduce((sum, a, k) => sum + a * (bottom[k] as number), 0)));
  const term = (j: number): string => `abs(${rows[j]?.map((a, k) => `${a}*x${k}`).join(" + ")} - ${rest[j]})`;
  const value = (at: readonly number[]): number =>
    -rows.reduce((sum, row, j) => sum + Math.abs(row.reduce((s, a, k) => s + a * (at[k] as number), -(rest[j] as number))), 0);
  // Concave: its least value is at a corner.
  const corners = many(2 ** d, (bits) => value(inputs.map(({ low, high }, k) => ((bits >> k) & 1 ? high : low))));
  return law("kinks", inputs, `0 - (${many(d, term).join(" + ")})`, [Math.min(...corners), 0]);
}

/** A hill of a fifth of each limit or less, far from the nominal, hidden by a plain or not. */
function hill(draw: Draw, isHidden: boolean): Law {
  const inputs = many(draw.whole(3, 8), (k) => draw.input(`x${k}`, 0, 1));
  const tops = inputs.map(({ low, high }) => num(low + (high - low) * draw.between(0.1, 0.9)));
  const widths = inputs.map(() => num(draw.between(0.05, 0.4)));
  const farthest = inputs.reduce(
    (sum, { low, high }, k) => sum + (Math.max((tops[k] as number) - low, high - (tops[k] as number)) / (widths[k] as number)) ** 2,
    0,
  );
  const shape = inputs.map(({ id }, k) => `((${id} - ${tops[k]})/${widths[k]})^2`).join(" + ");
  if (!isHidden) return law("hill", inputs, `1/(1 + ${shape})`, [1 / (1 + farthest), 1]);
  const plain: Input = { id: "b", low: 0.1, high: 0.3, nominal: 0.2 };
  return law("hill inside max", [...inputs, plain], `max(b, exp(-(${shape})))`, [Math.max(0.1, Math.exp(-farthest)), 1]);
}

/** A narrow hill that lies across the axes: an ellipsoid of random directions. */
function tilted(draw: Draw): Law {
  const d = draw.whole(3, 8);
  const inputs = many(d, (k) => draw.input(`x${k}`, 0, 1));
  const top = inputs.map(({ low, high }) => low + (high - low) * draw.between(0.2, 0.8));
  const rows = many(d, () => many(d, () => num(draw.between(-5, 5))));
  const rest = rows.map((row) => num(row.reduce((sum, a, k) => sum + a * (top[k] as number), 0)));
  const form = (j: number, at: readonly number[]): number =>
    (rows[j] as number[]).reduce((sum, a, k) => sum + a * (at[k] as number), -(rest[j] as number));
  // The square sum is convex: greatest at a corner.
  const corners = many(2 ** d, (bits) => {
    const at = inputs.map(({ low, high }, k) => ((bits >> k) & 1 ? high : low));
    return rows.reduce((sum, _, j) => sum + form(j, at) ** 2, 0);
  });
  const term = (j: number): string => `(${rows[j]?.map((a, k) => `${a}*x${k}`).join(" + ")} - ${rest[j]})^2`;
  return law("tilted hill", inputs, `1/(1 + ${many(d, term).join(" + ")})`, [1 / (1 + Math.max(...corners)), 1]);
}

/** A ringing that dies away, through many periods. */
function ringing(draw: Draw): Law {
  const [A, tau, w, t] = [
    draw.input("A", 2, 0.3),
    draw.input("tau", 1, 0.3),
    draw.input("w", draw.between(20, 200), 2),
    draw.input("t", draw.between(0.6, 2), 0.5),
  ];
  const n = 200_000;
  const parts = many(n + 1, (i) => {
    const at = t.low + ((t.high - t.low) * i) / n;
    const [low, high] = sineOver(w.low * at + Math.PI / 2, w.high * at + Math.PI / 2);
    const size = (c: number, isUp: boolean): number =>
      (c > 0 === isUp ? A.high * Math.exp(-at / tau.high) : A.low * Math.exp(-at / tau.low)) * c;
    return [size(low, false), size(high, true)] as const;
  });
  return law("ringing", [A, tau, w, t], "A*exp(-t/tau)*cos(w*t)", hull(parts.flat()));
}

/** Powers into loads, each matched somewhere inside. */
function loads(draw: Draw): Law {
  const parts = many(draw.whole(1, 9), (k) => {
    const source = draw.between(10, 100);
    const [V, r, R] = [
      draw.input(`V${k}`, 4, 0.4),
      draw.input(`r${k}`, source, 0.2 * source),
      draw.input(`R${k}`, source * draw.between(0.6, 1.6), 0.55 * source),
    ];
    const power = (v: number, own: number, load: number): number => (v * v * load) / (own + load) ** 2;
    // Falls with r, rises with V, and along R has one peak, at r.
    const best = Math.min(R.high, Math.max(R.low, r.low));
    const ends: Ends = [Math.min(...[R.low, R.high].map((load) => power(V.low, r.high, load))), power(V.high, r.low, best)];
    return { inputs: [V, r, R], text: `V${k}^2*R${k}/(r${k} + R${k})^2`, ends };
  });
  return law(
    "matched loads",
    parts.flatMap(({ inputs }) => inputs),
    parts.map(({ text }) => text).join(" + "),
    sumOf(parts.map(({ ends }) => ends)),
  );
}

/** Neighbours multiplied in a chain: extremes at corners, found by following the chain from end to end. */
function chain(draw: Draw): Law {
  const inputs = many(draw.whole(4, 30), (k) => draw.input(`x${k}`, draw.between(-0.5, 0.5), 1));
  const [pairs, alone] = [inputs.map(() => num(draw.between(-1, 1))), inputs.map(() => num(draw.between(-0.5, 0.5)))];
  const along = (pick: (...values: number[]) => number): number => {
    const ends = inputs.map(({ low, high }): Ends => [low, high]);
    let best = ends[0]?.map((x) => (alone[0] as number) * x) as number[];
    for (let k = 1; k < inputs.length; k++) {
      best = (ends[k] as Ends).map(
        (x) =>
          (alone[k] as number) * x +
          pick(...(ends[k - 1] as Ends).map((before, i) => (best[i] as number) + (pairs[k] as number) * before * x)),
      );
    }
    return pick(...best);
  };
  const text = inputs.map(({ id }, k) => `${alone[k]}*${id}${k === 0 ? "" : ` + ${pairs[k]}*x${k - 1}*${id}`}`).join(" + ");
  return law("chain of products", inputs, text, [along(Math.min), along(Math.max)]);
}

/** The gain of a second-order low-pass near its corner frequency, of high quality. */
function lowPass(draw: Draw): Law {
  const quality = draw.between(5, 500);
  const [A, f, f_0, Q] = [
    draw.input("A", 2, 0.2),
    draw.input("f", 1, draw.between(0.2, 0.9)),
    draw.input("f_0", 1, 0.1),
    draw.input("Q", quality, 0.2 * quality),
  ];
  const gain = (a: number, r: number, q: number): number => a / Math.sqrt((1 - r * r) ** 2 + (r / q) ** 2);
  const ratios = [f.low / f_0.high, f.high / f_0.low];
  const peak = Math.sqrt(1 - 1 / (2 * Q.high ** 2));
  return law("low-pass of high quality", [A, f, f_0, Q], "A/sqrt((1 - (f/f_0)^2)^2 + (f/f_0/Q)^2)", [
    Math.min(...ratios.map((r) => gain(A.low, r, Q.low))),
    gain(A.high, peak, Q.high),
  ]);
}

/** What is left of each input by steps: a saw with many teeth. */
function saws(draw: Draw): Law {
  const parts = many(draw.whole(3, 6), (k) => {
    const [x, size, steps] = [draw.input(`x${k}`, draw.between(1, 3), 0.5), num(draw.between(0.2, 1)), draw.whole(3, 40)];
    return { x, text: `${size}*(${steps}*x${k} - floor(${steps}*x${k}))`, ends: [0, size] as Ends };
  });
  return law(
    "steps",
    parts.map(({ x }) => x),
    parts.map(({ text }) => text).join(" + "),
    sumOf(parts.map(({ ends }) => ends)),
  );
}

/** Three to five inputs in laws of all kinds, against a grid and a long climb from its best points. */
function mixed(draw: Draw): Law {
  const d = draw.whole(3, 5);
  const inputs = many(d, (k) => draw.input(`x${k}`, draw.between(0.5, 3), draw.between(0.2, 0.45)));
  const x = (): number => draw.whole(0, d - 1);
  const c = (): number => num(draw.between(-2, 2));
  const shapes = [
    (): string => `${c()}*x${x()}*x${x()}`,
    (): string => `${c()}*x${x()}/(x${x()} + 1)`,
    (): string => `${c()}*sin(${num(draw.between(1, 8))}*x${x()})*x${x()}`,
    (): string => `${c()}*(x${x()} - x${x()})^2`,
    (): string => `${c()}*sqrt(x${x()}^2 + (x${x()} - 1)^2)`,
    (): string => `${c()}*abs(x${x()} - x${x()}*${num(draw.between(0.5, 1.5))})`,
    (): string => `${c()}*exp(-((x${x()} - ${num(draw.between(0.5, 3))})/0.3)^2)`,
    (): string => `max(${c()}*x${x()}, ${c()}*x${x()})`,
  ];
  const straight = inputs.map(({ id }) => `${num(c() / 10)}*${id}`);
  const text = [...many(draw.whole(3, 6), () => (shapes[draw.whole(0, shapes.length - 1)] as () => string)()), ...straight].join(" + ");
  return law("mixed", inputs, text, grid(nodesOf(inputs, text), inputs));
}

const families: readonly ((draw: Draw) => Law)[] = [
  errorBudget,
  deviations,
  ridges,
  periods,
  phases,
  (draw) => resonance(draw, false),
  (draw) => resonance(draw, true),
  branch,
  kinks,
  (draw) => hill(draw, false),
  (draw) => hill(draw, true),
  tilted,
  ringing,
  loads,
  chain,
  lowPass,
  saws,
  mixed,
];

/** `each` laws of every family. */
export function lawsOf(seed: number, each: number): Law[] {
  return families.flatMap((make, family) => many(each, (k) => make(new Draw(random(seed + 1000 * family + k)))));
}
