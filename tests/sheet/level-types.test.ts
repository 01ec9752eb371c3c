/** Levels in the types of a sheet's calls, to both compilers: what is a level, and one sentence where decibels are added. */
import { describe, expect, test } from "vitest";
import { levelWords } from "../../lib/formula/level-words";
import { compileAsNotebook, compileStrict, imports } from "../types/compile";

const header = [
  imports({
    "quantity/quantity": ["Quantity", "Unit", "Level", "LevelUnit", "Power", "PowerGain", "FieldGain", "Voltage"],
    "sheet/worksheet": ["Worksheet"],
  }),
  "declare const sheet: Worksheet, dBm: LevelUnit<Power>, dB_power: LevelUnit<PowerGain>, dB: LevelUnit<FieldGain>, watt: Unit<Power>, one: Unit<PowerGain>;",
  "declare const v: { U_1: Quantity<Voltage>; U_2: Quantity<Voltage> };",
  "declare const g: { P: Level<Power>; G: Level<PowerGain>; H: Level<PowerGain> };",
  'const link = sheet.given({ G: ["a", dB_power], H: ["b", dB_power] }), linear = sheet.given({ G: ["a", one], H: ["b", one] });',
  "type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;",
  "declare function is<A, B>(same: Same<A, B>): void;",
];

const right = [
  'const a = sheet.given({ P: ["p", dBm] }); is<typeof a.P, Level<Power>>(true); const b: Quantity<Power> = a.P;',
  'const c = sheet.derive("P = P*G*H", g, dBm, "received"); is<typeof c, Level<Power>>(true); const d = c.in(watt) + c.in(dBm);',
  'const e = sheet.derive("K = F_1 + (F_2 - 1)/G", { F_1: link.G, F_2: link.H, G: g.G }, dB_power, "noise factor");',
  'const f = sheet.take({ P: ["other.P", dBm] }); is<typeof f.P, Level<Power>>(true);',
  'const h = sheet.part("a", "b", dBm); is<typeof h, Level<Power>>(true); const i = sheet.assume("a", "b", dBm); is<typeof i, Level<Power>>(true);',
  "const j = dBm(3); is<typeof j, Level<Power>>(true); const k = g.P.mul(g.G); is<typeof k, Quantity<Power>>(true); const l = k.as(dBm); is<typeof l, Level<Power>>(true);",
  'const m = sheet.derive("K = G + H", linear, dB_power, "in phase");',
  'const n = sheet.derive("P = powersum(P, P)", g, dBm, "two transmitters");',
];

const wrong: Readonly<Record<string, string>> = {
  'sheet.derive("K = G + H", g, dB_power, "both")': `✗ cannot add G and H, ${levelWords.add.level}`,
  'sheet.derive("K = G - H", link, dB_power, "both")': `✗ cannot subtract H from G, ${levelWords.subtract.level}`,
  'sheet.derive("K = G + H", sheet.take({ G: ["a.G", dB], H: ["a.H", dB] }), dB, "both")': `✗ cannot add G and H, ${levelWords.add.level}`,
  'sheet.derive("K = G + H", { G: h, H: sheet.derive("P = P*G", g, dBm, "sent") }, dBm, "both")': `✗ cannot add G and H, ${levelWords.add.level}`,
  'sheet.derive("K = G + 10*log10(U_1/U_2)", { ...g, ...v }, dB_power, "both")': `✗ cannot add G and 10*log10(U_1/U_2), ${levelWords.add.log}`,
  'sheet.derive("K = 20*log10(U_1/U_2)", v, dB, "gain")': `✗ 20*log10(U_1/U_2) is ${levelWords.result}`,
};

const lines = [...header, ...right, ...Object.keys(wrong)].join("\n").split("\n");

const inNotebook = compileAsNotebook(lines.join("\n"));

describe.each([
  ["TypeScript 5.0 without strict", () => inNotebook.errors],
  ["the current TypeScript with strict", () => compileStrict(lines.join("\n"))],
] as const)("with %s", (_, compile) => {
  test("levels are known, and adding them is refused in one sentence", () => {
    const found = compile().map(({ line, message }) => [lines[line - 1] ?? line, /"(✗ [^"]*)"/.exec(message)?.[1] ?? message]);
    expect(found).toEqual(Object.entries(wrong));
  });
});

test("levels cost the compiler little", () => {
  // 18 852 when written.
  expect(inNotebook.instantiations).toBeLessThan(25_000);
});
