/** The second route of rails: ngspice on netlists written here, which share no code with the library. */
import { describe, expect, it } from "vitest";
import { type CurveResult, curveArgument } from "../../../lib/graph/model";
import { rails } from "../../../lib/physics";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const dB = (ratio: number): number => 20 * Math.log10(ratio);
type Kind = readonly [C: number, ESR: number, ESL: number, n: number];

const banks: readonly (readonly [string, readonly Kind[]])[] = [
  ["one kind", [[10e-6, 5e-3, 0.6e-9, 2]]],
  [
    "two kinds far apart",
    [
      [10e-6, 5e-3, 1e-9, 1],
      [100e-9, 20e-3, 0.5e-9, 3],
    ],
  ],
  [
    "four kinds",
    [
      [100e-6, 80e-3, 3e-9, 1],
      [5.5e-6, 5e-3, 0.6e-9, 2],
      [100e-9, 20e-3, 0.5e-9, 4],
      [1e-9, 60e-3, 0.4e-9, 2],
    ],
  ],
];

function bankArguments(kinds: readonly Kind[]) {
  const given = [0, 1, 2, 3].map((k) => kinds[k] ?? [0, 0, 0, 0]);
  const entries = given.flatMap(([C, ESR, ESL, n], k) => Object.entries({ C, ESR, ESL, n }).map(([name, x]) => [`${name}_${k + 1}`, x]));
  return Object.fromEntries(entries) as Omit<Parameters<typeof rails.bankImpedance.evaluate>[0], "f">;
}

/** Every piece as a branch of its own, driven by 1 A. */
function bankNetlist(kinds: readonly Kind[]): string {
  const branches = kinds.flatMap(([C, ESR, ESL, n], k) =>
    Array.from(
      { length: n },
      (_, i) => `C${k}_${i} top a${k}_${i} ${C}\nR${k}_${i} a${k}_${i} b${k}_${i} ${ESR}\nL${k}_${i} b${k}_${i} 0 ${ESL}`,
    ),
  );
  return ["* bank", "I1 0 top AC 1", "Rbig top 0 1e9", ...branches, ".ac dec 20 1e4 1e9", ".print ac vr(top) vi(top)", ".end", ""].join(
    "\n",
  );
}

describe("a capacitor bank in ngspice", () => {
  it.skipIf(skip).each(banks)("of %s has the same impedance within 0.1 dB at more than 50 frequencies from 10 kHz to 1 GHz", (_, kinds) => {
    const rows = ngspiceRows(bankNetlist(kinds));
    expect(rows.length).toBeGreaterThan(50);
    for (const [f = 0, re = 0, im = 0] of rows) {
      const { Z, phi } = rails.bankImpedance.evaluate({ f, ...bankArguments(kinds) });
      expect(Math.abs(dB(Z / Math.hypot(re, im))), `${f} Hz`).toBeLessThan(0.1);
      expect(Math.abs(phi - Math.atan2(im, re))).toBeLessThan(2e-3);
    }
  });
});

function readable({ x, y, interpolation = "linear" }: CurveResult) {
  return curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y), interpolation });
}

describe("the extremes of a capacitor bank", () => {
  it.skipIf(skip).each(banks)("of %s are the highest and lowest of ngspice's within 0.02 dB, and where they are", (_, kinds) => {
    const text = bankNetlist(kinds).replace(".ac dec 20 1e4 1e9", ".ac dec 2000 1e5 4e8");
    const rows = ngspiceRows(text).map(([f = 0, re = 0, im = 0]) => ({ f, Z: Math.hypot(re, im) }));
    expect(rows.length).toBeGreaterThan(7000);
    const [top, bottom] = [
      rows.reduce((best, row) => (row.Z > best.Z ? row : best)),
      rows.reduce((best, row) => (row.Z < best.Z ? row : best)),
    ];
    const ours = rails.bankExtremes.evaluate({ f_1: 1e5, f_2: 4e8, ...bankArguments(kinds) });
    expect(Math.abs(dB(ours.Z_max / top.Z)), `highest: ${ours.Z_max} Ω, ngspice ${top.Z} Ω`).toBeLessThan(0.02);
    expect(Math.abs(dB(ours.Z_min / bottom.Z)), `lowest: ${ours.Z_min} Ω, ngspice ${bottom.Z} Ω`).toBeLessThan(0.02);
    expect([ours.f_max / top.f, ours.f_min / bottom.f]).toEqual([expect.closeTo(1, 2), expect.closeTo(1, 2)]);
    const peaks = rows.filter(({ Z }, i) => Z > (rows[i - 1]?.Z ?? Infinity) && Z > (rows[i + 1]?.Z ?? Infinity));
    expect(ours.n).toBe(peaks.length);
  });
});

describe("the curve of a capacitor bank", () => {
  it.skipIf(skip).each(banks)("of %s, read between its points, is ngspice's within 0.05 dB from 10 kHz to 1 GHz", (_, kinds) => {
    const { Z } = rails.bankImpedanceCurve.evaluate({ f_1: 1e4, f_2: 1e9, ...bankArguments(kinds) });
    const curve = readable(Z);
    const rows = ngspiceRows(bankNetlist(kinds)).filter(([f = 0]) => f > 1e4 && f < 1e9);
    expect(rows.length).toBeGreaterThan(95);
    for (const [f = 0, re = 0, im = 0] of rows) expect(Math.abs(dB(curve.at(f) / Math.hypot(re, im))), `${f} Hz`).toBeLessThan(0.05);
  });

  it("reaches the top of each anti-resonance, which the grid alone cuts by a decibel", () => {
    const [, , kinds = []] = banks.map(([, each]) => each);
    const band = { f_1: 1e5, f_2: 4e8, ...bankArguments(kinds) };
    const { Z } = rails.bankImpedanceCurve.evaluate(band);
    expect(Math.max(...Array.from(Z.y)) / rails.bankExtremes.evaluate(band).Z_max).toBeCloseTo(1, 5);
    const { Z: top, f } = rails.bankAntiResonance.evaluate(band);
    expect(readable(Z).at(f) / top).toBeCloseTo(1, 5);
  });
});

const filter = { R_s: 0.1, L: 2.2e-6, R_dc: 0.08, R_p: 1e3, C: 5.5e-6, ESR: 5e-3, ESL: 0.6e-9, C_d: 22e-6, R_d: 0.5, R_L: 60 };
const rest = [
  `L1 a1 a2 ${filter.L}`,
  `RP a1 a2 ${filter.R_p}`,
  `RDC a2 out ${filter.R_dc}`,
  `C1 out c1 ${filter.C}`,
  `R1 c1 c2 ${filter.ESR}`,
  `L2 c2 0 ${filter.ESL}`,
  `CD out d1 ${filter.C_d}`,
  `RD d1 0 ${filter.R_d}`,
];

describe("a post filter in ngspice", () => {
  it.skipIf(skip)("has the same transfer and output impedance within 0.1 dB from 1 kHz to 100 MHz", () => {
    const sweep = [".ac dec 15 1e3 1e8", ".print ac vm(out)", ".end", ""];
    const H = ngspiceRows(["* transfer", "V1 in 0 AC 1", `RS in a1 ${filter.R_s}`, ...rest, `RL out 0 ${filter.R_L}`, ...sweep].join("\n"));
    const Z = ngspiceRows(["* impedance", "I1 0 out AC 1", `RS 0 a1 ${filter.R_s}`, ...rest, ...sweep].join("\n"));
    expect(H.length).toBeGreaterThan(50);
    H.forEach(([f = 0, h = 0], i) => {
      const ours = rails.postFilter.evaluate({ f, ...filter });
      expect(Math.abs(dB(ours.H / h)), `transfer at ${f} Hz`).toBeLessThan(0.1);
      expect(Math.abs(dB(ours.Z / (Z[i]?.[1] ?? 0))), `output impedance at ${f} Hz`).toBeLessThan(0.1);
    });
  });
});

describe("the curve of a post filter", () => {
  it.skipIf(skip)("is ngspice's within 0.05 dB at any frequency, transfer and output impedance", () => {
    const sweep = [".ac dec 50 1e3 1e8", ".print ac vm(out)", ".end", ""];
    const H = ngspiceRows(["* transfer", "V1 in 0 AC 1", `RS in a1 ${filter.R_s}`, ...rest, `RL out 0 ${filter.R_L}`, ...sweep].join("\n"));
    const Z = ngspiceRows(["* impedance", "I1 0 out AC 1", `RS 0 a1 ${filter.R_s}`, ...rest, ...sweep].join("\n"));
    const curves = rails.postFilterCurve.evaluate({ f_1: 999, f_2: 1.001e8, ...filter });
    const [ours, impedance] = [readable(curves.H), readable(curves.Z)];
    expect([H.length, Z.length]).toEqual([251, 251]);
    H.forEach(([f = 0, h = 0], i) => {
      expect(Math.abs(dB(ours.at(f) / h)), `transfer at ${f} Hz`).toBeLessThan(0.05);
      expect(Math.abs(dB(impedance.at(f) / (Z[i]?.[1] ?? 0))), `output impedance at ${f} Hz`).toBeLessThan(0.05);
    });
  });

  it("reaches the peaks of a filter without damping, that with a table of rejection too", () => {
    const sharp = { ...filter, R_s: 0.02, R_dc: 0.02, R_p: 1e5, C_d: 0, R_L: 600, f_1: 1e3, f_2: 1e8 };
    const curves = rails.postFilterCurve.evaluate(sharp);
    const peak = rails.postFilterPeak.evaluate(sharp);
    expect(Math.max(...Array.from(curves.H.y)) / peak.H).toBeCloseTo(1, 5);
    expect(Math.max(...Array.from(curves.Z.y)) / peak.Z).toBeCloseTo(1, 5);
    const rejection = curveArgument({ x: Float64Array.of(1e3, 1e8), y: Float64Array.of(100, 100) });
    const { A } = rails.filteredRejectionCurve.evaluate({ ...sharp, G: 2, rejection });
    expect((Math.min(...Array.from(A.y)) * peak.H) / 50).toBeCloseTo(1, 5);
  });
});

interface Ends {
  readonly V_in: number;
  readonly V_out: number;
  readonly f: number;
  readonly L: number;
}

/** Where the three elements of a converter stand: inductor, switch, rectifier (from and to). */
const places = {
  boost: { coil: "in sw", main: "sw 0", diode: "sw out" },
  inverting: { coil: "sw 0", main: "in sw", diode: "out sw" },
  buck: { coil: "sw out", main: "in sw", diode: "0 sw" },
} as const;
type Name = keyof typeof places;

/** A converter between stiff voltages, with a nearly ideal diode, started from no current. */
function stiffNetlist(name: Name, { V_in, V_out, f, L }: Ends, D: number): string {
  const { coil, main, diode } = places[name];
  const T = 1 / f;
  return [
    `* ${name}`,
    `VIN in 0 ${V_in}`,
    `VOUT out 0 ${name === "inverting" ? -V_out : V_out}`,
    `L1 ${coil} ${L} IC=0`,
    `S1 ${main} g 0 SWM`,
    `D1 ${diode} DM`,
    "RSNUB sw 0 1e5",
    `VG g 0 PULSE(0 1 0 ${T / 2000} ${T / 2000} ${D * T - T / 2000} ${T})`,
    ".model SWM SW(RON=1e-4 ROFF=1e8 VT=0.5)",
    ".model DM D(IS=1e-9 N=0.02 RS=1e-4)",
    `.tran ${T / 2000} ${3 * T} ${2 * T} ${T / 2000} UIC`,
    ".print tran i(L1) i(VOUT)",
    ".end",
    "",
  ].join("\n");
}

/** Mean over the time of the printed rows. */
function mean(rows: readonly (readonly number[])[], of: (row: readonly number[]) => number): number {
  let sum = 0;
  for (let k = 1; k < rows.length; k++) {
    const [a, b] = [rows[k - 1] as readonly number[], rows[k] as readonly number[]];
    sum += (((b[0] as number) - (a[0] as number)) * (of(a) + of(b))) / 2;
  }
  return sum / ((rows.at(-1)?.[0] ?? 0) - (rows[0]?.[0] ?? 0));
}

describe("a converter in ngspice", () => {
  const cases = [
    ["boost", rails.boostOperation, { V_in: 3.3, V_out: 5, f: 1e6, L: 4.7e-6 }, 0.03],
    ["inverting", rails.invertingOperation, { V_in: 3.7, V_out: 4.5, f: 1.5e6, L: 4.7e-6 }, 0.02],
    ["buck", rails.buckOperation, { V_in: 4.2, V_out: 1.8, f: 2e6, L: 2.2e-6 }, 0.06],
  ] as const;

  it.skipIf(skip).each(cases)("that is %s gives its load in discontinuous conduction within 2 %%", (name, model, ends, I_out) => {
    const { D, I_pk, I_b } = model.evaluate({ ...ends, eta: 1, I_out });
    expect(I_out).toBeLessThan(I_b);
    const rows = ngspiceRows(stiffNetlist(name, ends, D));
    expect(rows.length).toBeGreaterThan(1000);
    const given = Math.abs(mean(rows, (row) => row[2] ?? 0));
    const peak = Math.max(...rows.map((row) => Math.abs(row[1] ?? 0)));
    expect(Math.abs(given / I_out - 1), `load ${given} A`).toBeLessThan(0.02);
    expect(Math.abs(peak / I_pk - 1), `peak ${peak} A`).toBeLessThan(0.02);
  });

  it.skipIf(skip)("that is boost, with its output capacitor and load, has the same ripple of current and voltage within 2 %", () => {
    const ends = { V_in: 3.3, V_out: 5, f: 1e6, L: 4.7e-6 };
    const [I_out, C, ESR] = [0.3, 10e-6, 0.01];
    const { D, dI, I_pk } = rails.boostOperation.evaluate({ ...ends, eta: 1, I_out });
    const { dV, dV_C } = rails.boostRipple.evaluate({ ...ends, eta: 1, I_out, t_e: 0, C, ESR, ESL: 0 });
    const T = 1e-6;
    const edge = T / 2000;
    const text = [
      "* boost with its load",
      "VIN in 0 3.3",
      `L1 in sw 4.7e-6 IC=${I_pk - dI}`,
      "S1 sw 0 g 0 SWM",
      "S2 sw out n 0 SWM",
      `C1 out c 10e-6 IC=${5 + dV_C / 2}`,
      `R1 c 0 ${ESR}`,
      `RL out 0 ${5 / I_out}`,
      `VG g 0 PULSE(0 1 ${-edge / 2} ${edge} ${edge} ${D * T - edge} ${T})`,
      `VN n 0 PULSE(1 0 ${-edge / 2} ${edge} ${edge} ${D * T - edge} ${T})`,
      ".model SWM SW(RON=1e-5 ROFF=1e8 VT=0.5)",
      `.tran ${T / 1000} ${12 * T} ${11 * T} ${T / 2000} UIC`,
      ".print tran i(L1) v(out)",
      ".end",
      "",
    ].join("\n");
    const rows = ngspiceRows(text);
    expect(rows.length).toBeGreaterThan(500);
    const currents = rows.map((row) => row[1] ?? 0);
    const [first, last] = [rows[0] ?? [], rows.at(-1) ?? []];
    const drift = ((last[2] ?? 0) - (first[2] ?? 0)) / ((last[0] ?? 0) - (first[0] ?? 0));
    const voltages = rows.map((row) => (row[2] ?? 0) - drift * ((row[0] ?? 0) - (first[0] ?? 0)));
    const theirs = Math.max(...voltages) - Math.min(...voltages);
    expect(Math.abs((Math.max(...currents) - Math.min(...currents)) / dI - 1)).toBeLessThan(0.02);
    expect(Math.abs(theirs / dV - 1), `${theirs} V against ${dV} V`).toBeLessThan(0.02);
  });

  it.skipIf(skip)("that is boost drives a capacitor with ESR and ESL by edges of 20 ns to the same ripple within 2 %", () => {
    const ends = { V_in: 3.3, V_out: 5, eta: 1, f: 1e6, L: 4.7e-6, I_out: 0.3 };
    const parts = { C: 10e-6, ESR: 0.01, ESL: 0.6e-9 };
    const { D, dI, I_pk } = rails.boostOperation.evaluate(ends);
    const { dV } = rails.boostRipple.evaluate({ ...ends, t_e: 20e-9, ...parts });
    const points = [0, 1, 2, 3].flatMap((k) => [
      [k * 1e-6 + 10e-9, -0.3],
      [k * 1e-6 + D * 1e-6 - 10e-9, -0.3],
      [k * 1e-6 + D * 1e-6 + 10e-9, I_pk - 0.3],
      [(k + 1) * 1e-6 - 10e-9, I_pk - dI - 0.3],
    ]);
    const pwl = points.flat().map((x) => x.toPrecision(12));
    const text = [
      "* capacitor",
      `I1 0 out PWL(${pwl.join(" ")})`,
      `C1 out a ${parts.C} IC=0`,
      `R1 a b ${parts.ESR}`,
      `L1 b 0 ${parts.ESL} IC=-0.3`,
      ".tran 1e-9 3.5e-6 2.2e-6 0.5e-9 UIC",
      ".print tran v(out)",
      ".end",
      "",
    ].join("\n");
    const voltages = ngspiceRows(text).map((row) => row[1] ?? 0);
    expect(Math.abs((Math.max(...voltages) - Math.min(...voltages)) / dV - 1)).toBeLessThan(0.02);
  });
});
