/**
 * Formulas with levels and the verdicts on them, as `verdicts.ts`: a symbol of `FieldGain level` is stated in dB, of `Power level` in
 * dBm. Good ones are arithmetic with ratios as the trade writes it; bad ones are decibels by habit.
 */
import { levelWords } from "../../lib/formula/level-words";
import type { FormulaVerdict } from "./verdicts";

const field = "FieldGain level";
const power = "PowerGain level";
const watt = "kg·m²·s⁻³";
const volt = "kg·m²·s⁻³·A⁻¹";
const pascal = "kg·m⁻¹·s⁻²";

const path = { L_0: power, X: power, n: "Dimensionless", d: "Length", d_0: "Length" };
const link = { P_t: "Power level", G_t: power, G_r: power, L_p: power, N: "Power level", S: "Power level" };
const chain = { F_1: power, F_2: power, F_3: power, G_1: power, G_2: power };
const sound = { L_1: "Pressure level", L_2: "Pressure level", p_0: "Pressure", n: "Dimensionless" };
const gains = { A: field, B: field, x: "Dimensionless", R_1: "Resistance", R_2: "Resistance" };
const amplifier = { V_i: "Voltage level", V_n: "Voltage level", G: field, V: "Voltage", CMRR: field, PSRR: field, V_c: "Voltage" };
const noisy = { T_0: "Temperature", T_a: "Temperature", F: power, L: power, B: "Frequency", k: "HeatCapacity" };

/** Formulas that compile and count levels as the ratios they are. */
export const goodLevels: readonly FormulaVerdict[] = [
  // links and path loss
  { text: "L = L_0*(d/d_0)^n*X", symbols: path, asked: power, expected: "1" },
  { text: "P_r = P_t*G_t*G_r/L_p", symbols: link, asked: "Power level", expected: watt },
  { text: "P_t*G_t/(4*pi*d^2)", symbols: { ...link, d: "Length" }, expected: "kg·s⁻³" },
  { text: "SNR = S/N", symbols: link, asked: power, expected: "1" },
  { text: "S/(N + P_i)", symbols: { ...link, P_i: "Power" }, expected: "1" },
  { text: "powersum(S, N)", symbols: link, asked: "Power level", expected: watt },
  { text: "S/powersum(N, P_t, S)", symbols: link, expected: "1" },
  // noise factors
  { text: "F = F_1 + (F_2 - 1)/G_1", symbols: chain, asked: power, expected: "1|power gain" },
  { text: "F_1 + (F_2 - 1)/G_1 + (F_3 - 1)/(G_1*G_2)", symbols: chain, expected: "1|power gain" },
  { text: "F_1 + F_2/G_1 - 1/G_1", symbols: chain, expected: "1|power gain" },
  { text: "T_0*(F - 1)", symbols: noisy, expected: "K" },
  { text: "T_a/L + T_0*(1 - 1/L)", symbols: noisy, expected: "K" },
  { text: "k*T_0*B*F", symbols: noisy, asked: "Power", expected: watt },
  { text: "L + (F - 1)*L", symbols: noisy, expected: "1|power gain" },
  { text: "A + A*B + A^2*B", symbols: gains, expected: "1|field gain" },
  { text: "sqrt(A)*B + B", symbols: gains, expected: "1|field gain" },
  { text: "(F_1 - 1) + (F_2 - 1)/G_1", symbols: chain, expected: "1|power gain" },
  { text: "N*G_t + N*L_p", symbols: link, expected: watt },
  { text: "N*G_t + S", symbols: link, expected: watt },
  // gain chains, rejection
  { text: "V_o = V_i*G", symbols: amplifier, asked: "Voltage level", expected: volt },
  { text: "V*G/CMRR", symbols: amplifier, expected: volt },
  { text: "V/CMRR + V_c/PSRR", symbols: amplifier, expected: volt },
  { text: "sqrt((V/CMRR)^2 + (V_c/PSRR)^2)", symbols: amplifier, expected: volt },
  { text: "1/(1/A + 1/B)", symbols: gains, expected: "1" },
  { text: "A/(1 + A*B)", symbols: gains, asked: field, expected: "1" },
  { text: "(1 + A)/(1 - A)", symbols: gains, expected: "1" },
  { text: "A = 1 + R_2/R_1", symbols: gains, asked: field, expected: "1" },
  { text: "sqrt(1 - A^2)", symbols: gains, expected: "1" },
  { text: "A^2/(1 - B^2)", symbols: gains, expected: "1" },
  { text: "max(A, B)*x", symbols: gains, expected: "1" },
  { text: "A/(1 + A*B) + A", symbols: gains, expected: "1|field gain" },
  { text: "if(A > 1, A, 1/A)", symbols: gains, expected: "1|field gain" },
  { text: "min(A, 1)", symbols: gains, expected: "1|field gain" },
  { text: "V_i - V", symbols: amplifier, expected: volt },
  { text: "A + 0", symbols: gains, expected: "1|field gain" },
  // sound
  { text: "powersum(L_1, L_2)", symbols: sound, asked: "Pressure level", expected: pascal },
  { text: "sqrt(n)*L_1", symbols: sound, asked: "Pressure level", expected: pascal },
  { text: "sqrt(L_1^2 + L_2^2)", symbols: sound, expected: pascal },
  { text: "L_1/L_2", symbols: sound, asked: field, expected: "1" },
  { text: "powersum(A*B, A)", symbols: gains, expected: "1|field gain" },
  { text: "powersum(V, V_c)", symbols: amplifier, asked: "Voltage", expected: volt },
  // decibels as a number on purpose
  { text: "10*log10(S/N)", symbols: link, asked: "Dimensionless", expected: "1" },
  { text: "6.02*x + 20*log10(x)", symbols: gains, asked: "Dimensionless", expected: "1" },
  { text: "log10(A)/log10(B)", symbols: gains, asked: field, expected: "1" },
];

const { add, subtract, compare, exponent, result } = levelWords;

/** Formulas that are refused. */
export const badLevels: readonly FormulaVerdict[] = [
  // links and path loss
  { text: "L = L_0 + 10*n*log10(d/d_0) + X", symbols: path, asked: power, expected: `✗ cannot add L_0 and 10*n*log10(d/d_0), ${add.log}` },
  { text: "L_0 + X + 10*n*log10(d/d_0)", symbols: path, expected: `✗ cannot add L_0 and X, ${add.level}` },
  { text: "10*n*log10(d/d_0) + L_0", symbols: path, expected: `✗ cannot add 10*n*log10(d/d_0) and L_0, ${add.log}` },
  { text: "L_0 + (n + 10*log10(d/d_0))", symbols: path, expected: `✗ cannot add L_0 and (n + 10*log10(d/d_0)), ${add.log}` },
  { text: "L_0 + ln(d/d_0)*20/2.303", symbols: path, expected: `✗ cannot add L_0 and ln(d/d_0)*20/2.303, ${add.log}` },
  { text: "L_0 - 20*log10(d/d_0)", symbols: path, expected: `✗ cannot subtract 20*log10(d/d_0) from L_0, ${subtract.log}` },
  { text: "G_t + G_r", symbols: link, asked: power, expected: `✗ cannot add G_t and G_r, ${add.level}` },
  { text: "P_t + G_t + G_r - L_p", symbols: link, asked: "Power level", expected: `✗ cannot add P_t and G_t, ${add.level}` },
  { text: "(G_t + G_r)/L_p", symbols: link, expected: `✗ cannot add G_t and G_r, ${add.level}` },
  { text: "P_t*(G_t - L_p)", symbols: link, expected: `✗ cannot subtract L_p from G_t, ${subtract.level}` },
  { text: "SNR = S - N", symbols: link, asked: power, expected: `✗ cannot subtract N from S, ${subtract.level}` },
  { text: "S - N", symbols: link, expected: `✗ cannot subtract N from S, ${subtract.level}` },
  { text: "S - (N + P_i)", symbols: { ...link, P_i: "Power" }, expected: `✗ cannot subtract (N + P_i) from S, ${subtract.level}` },
  // chains
  { text: "F_1 + F_2", symbols: chain, expected: `✗ cannot add F_1 and F_2, ${add.level}` },
  { text: "F_1 + (F_2 - G_1)", symbols: chain, expected: `✗ cannot subtract G_1 from F_2, ${subtract.level}` },
  { text: "G_1 + 2*G_2", symbols: chain, expected: `✗ cannot add G_1 and 2*G_2, ${add.level}` },
  { text: "G_1 + G_2/2", symbols: chain, expected: `✗ cannot add G_1 and G_2/2, ${add.level}` },
  { text: "-G_1 + -(G_2)", symbols: chain, expected: `✗ cannot add -G_1 and -(G_2), ${add.level}` },
  { text: "G_1 + n*G_2", symbols: { ...chain, n: "Dimensionless" }, expected: `✗ cannot add G_1 and n*G_2, ${add.level}` },
  { text: "A + x + B", symbols: gains, expected: `✗ cannot add A + x and B, ${add.level}` },
  { text: "max(A, B) + A", symbols: gains, expected: `✗ cannot add max(A, B) and A, ${add.level}` },
  { text: "abs(A - B)", symbols: gains, expected: `✗ cannot subtract B from A, ${subtract.level}` },
  { text: "V_i + V_n", symbols: amplifier, expected: `✗ cannot add V_i and V_n, ${add.level}` },
  { text: "V_i + G", symbols: amplifier, asked: "Voltage level", expected: `✗ cannot add V_i and G, ${add.level}` },
  // numbers of decibels
  { text: "A + 6", symbols: gains, expected: `✗ cannot add A and 6, ${add.number}` },
  { text: "A - 3", symbols: gains, expected: `✗ cannot subtract 3 from A, ${subtract.number}` },
  { text: "if(A > 20, A, B)", symbols: gains, expected: `✗ cannot compare A and 20, ${compare.number}` },
  { text: "max(A, B, 20)", symbols: gains, expected: `✗ cannot compare A and 20, ${compare.number}` },
  { text: "max(A, 20*log10(x))", symbols: gains, expected: `✗ cannot compare A and 20*log10(x), ${compare.log}` },
  { text: "10^(A/20)", symbols: gains, expected: `✗ exponent (A/20) of 10 is ${exponent}` },
  {
    text: "10*log10(10^(L_1/10) + 10^(L_2/10))",
    symbols: sound,
    expected: `✗ exponent (L_1/10) of 10 is ${exponent}`,
  },
  // sound
  { text: "L_1 + L_2", symbols: sound, expected: `✗ cannot add L_1 and L_2, ${add.level}` },
  { text: "L_1 - L_2", symbols: sound, asked: field, expected: `✗ cannot subtract L_2 from L_1, ${subtract.level}` },
  { text: "L_1 + 10*log10(n)", symbols: sound, expected: `✗ cannot add L_1 and 10*log10(n), ${add.log}` },
  { text: "powersum(L_1, L_2) + L_1", symbols: sound, expected: `✗ cannot add powersum(L_1, L_2) and L_1, ${add.level}` },
  { text: "powersum(d, d_0)", symbols: path, expected: "✗ powersum() adds powers: d (length) is known neither as a field nor as a power" },
  {
    text: "powersum(x, x)",
    symbols: gains,
    expected: "✗ powersum() adds powers: x (dimensionless) is known neither as a field nor as a power",
  },
  { text: "powersum(L_1, L_2, n)", symbols: sound, expected: "✗ cannot compare L_1 (pressure) and n (dimensionless)" },
  { text: "powersum(L_1)", symbols: sound, expected: "✗ powersum() takes 2 values or more, got 1" },
  { text: "powersum(L_1, 3)", symbols: sound, expected: `✗ cannot compare L_1 and 3, ${compare.number}` },
  // logarithms asked for in decibels
  { text: "20*log10(R_2/R_1)", symbols: gains, asked: field, expected: `✗ 20*log10(R_2/R_1) is ${result}` },
  { text: "R = -20*log10(x)", symbols: gains, asked: field, expected: `✗ -20*log10(x) is ${result}` },
  { text: "20*log10(p_0)", symbols: { p_0: "Dimensionless" }, asked: "Pressure level", expected: `✗ 20*log10(p_0) is ${result}` },
];
