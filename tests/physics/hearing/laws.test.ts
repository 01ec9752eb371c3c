import { describe, expect, it } from "vitest";
import { hearing } from "../../../lib/physics";
import { dB, dB_per_mW, dB_per_V, dB_SPL, dBA, hour } from "../../../lib/units";
import { law, reference } from "../check-rows";

const stated = reference("hearing");
const niosh = { p_c: stated.value("niosh-level"), t_c: stated.value("niosh-time"), q: stated.value("niosh-exchange") };
const osha = { p_c: stated.value("osha-level"), t_c: stated.value("osha-time"), q: stated.value("osha-exchange") };
const level = (x: number): number => dBA.toSI(x);

describe("sound from a headphone", () => {
  const [S, Z] = [dB_per_mW.toSI(102), 38];

  it("of 102 dB/mW makes 82 dB from 10 µW: 19.5 mV across 38 Ω", () => {
    expect(law(hearing.powerForPressure, { p: dB_SPL.toSI(82), S })).toBeCloseTo(10e-6, 9);
    expect(dB_SPL.fromSI(law(hearing.pressureAtPower, { P: 10e-6, S }))).toBeCloseTo(82, 9);
    const V = Math.sqrt(10e-6 * 38);
    expect(V * 1e3).toBeCloseTo(19.5, 1);
    expect(dB_SPL.fromSI(law(hearing.pressureBehindImpedance, { V, S, Z }))).toBeCloseTo(82, 9);
  });

  it("is the same by either sensitivity: 102 dB/mW at 38 Ω is 116.2 dB/V", () => {
    const S_V = law(hearing.sensitivityPerVolt, { S, Z });
    expect(dB_per_V.fromSI(S_V)).toBeCloseTo(102 + 10 * Math.log10(1000 / 38), 9);
    const V = law(hearing.voltageForPressure, { p: level(94), Z, S });
    expect(law(hearing.voltageAtPressure, { p: level(94), S_V })).toBeCloseTo(V, 12);
    expect(dB_SPL.fromSI(law(hearing.pressureAtVoltage, { V, S_V }))).toBeCloseTo(94, 9);
  });

  it("takes a correction to the criteria's level in decibels", () => {
    expect(dBA.fromSI(law(hearing.referredPressure, { p: level(90), g: dB.toSI(-5) }))).toBeCloseTo(85, 9);
  });
});

describe("daily criteria", () => {
  // NIOSH 98-126, table 1-1: minutes, rounded as printed
  it.each([
    [80, 25 * 60 + 24],
    [82, 16 * 60],
    [91, 2 * 60],
    [97, 30],
    [103, 7.5],
    [106, 3.75],
  ])("of NIOSH permit %d dBA for %d min", (L, minutes) => {
    expect(law(hearing.permittedTime, { ...niosh, p: level(L) }) / 60 / minutes).toBeCloseTo(1, 2);
  });

  it("of OSHA halve for every 5 dB, so that they permit more above 90 dBA and end at 115 dBA", () => {
    expect(law(hearing.permittedTime, { ...osha, p: level(105) }) / 3600).toBeCloseTo(1, 9);
    expect(law(hearing.permittedTime, { ...osha, p: level(100) })).toBeGreaterThan(law(hearing.permittedTime, { ...niosh, p: level(100) }));
    expect(dBA.fromSI(stated.value("osha-ceiling"))).toBeCloseTo(115, 9);
  });

  it("use up the whole allowance at the permitted time, and average to the criterion's level", () => {
    const t_p = law(hearing.permittedTime, { ...niosh, p: level(91) });
    const D = law(hearing.doseOf, { t: t_p, t_p });
    expect(D).toBe(1);
    expect(dBA.fromSI(law(hearing.averageOfDose, { ...{ p_c: niosh.p_c, q: niosh.q }, D }))).toBeCloseTo(85, 9);
    // 29 CFR 1910.95, table A-1: a dose of 50 % is 85 dBA
    expect(dBA.fromSI(law(hearing.averageOfDose, { p_c: osha.p_c, q: osha.q, D: 0.5 }))).toBeCloseTo(85, 9);
  });
});

describe("weekly allowances", () => {
  it("are 40 h at their level, to rounding", () => {
    for (const [allowance, at] of [
      ["week-adults", "adults-level"],
      ["week-sensitive", "sensitive-level"],
    ] as const) {
      const t = law(hearing.allowedTime, { E: stated.value(allowance), p: stated.value(at) });
      expect(Math.abs(t / stated.value("week-hours") - 1)).toBeLessThan(0.01);
    }
  });

  it("turn round: level from time and time from level", () => {
    const E = stated.value("week-adults");
    const p = law(hearing.allowedPressure, { E, t: hour.toSI(21) });
    expect(law(hearing.allowedTime, { E, p })).toBeCloseTo(hour.toSI(21), 6);
    expect(law(hearing.doseShare, { E: law(hearing.soundExposure, { p, t: hour.toSI(21) }), E_w: E })).toBeCloseTo(1, 12);
    expect(law(hearing.usesPerWeek, { t_w: hour.toSI(21), t: hour.toSI(6) })).toBeCloseTo(3.5, 12);
  });

  it("average two times as one sound of the same exposure", () => {
    const two = { p_1: level(85), t_1: hour.toSI(7), p_2: level(92), t_2: hour.toSI(2) };
    const p = law(hearing.averagePressure, two);
    const E = law(hearing.soundExposure, { p: two.p_1, t: two.t_1 }) + law(hearing.soundExposure, { p: two.p_2, t: two.t_2 });
    expect(law(hearing.soundExposure, { p, t: hour.toSI(9) })).toBeCloseTo(E, 6);
    expect(law(hearing.averagePressure, { ...two, t_2: 0 })).toBeCloseTo(two.p_1, 12);
  });
});

describe("hearing.listeningTimes", () => {
  const criteria = { p_d: niosh.p_c, t_d: niosh.t_c, q: niosh.q, E_w: stated.value("week-adults"), E_s: stated.value("week-sensitive") };
  const at = (L: number) => hearing.listeningTimes.evaluate({ ...criteria, p: level(L) });

  it("at 82 dBA gives 16 h a day but 25 h a week, so that five mornings of six hours are too many", () => {
    const { t_day, t_week, t_sensitive, t_mean } = at(82);
    expect(t_day / 3600).toBeCloseTo(16, 6);
    expect(t_week / 3600).toBeCloseTo(25.2, 1);
    expect(t_sensitive / 3600).toBeCloseTo(8, 1);
    expect(t_mean).toBeCloseTo(t_week / 7, 9);
    expect(law(hearing.usesPerWeek, { t_w: t_week, t: hour.toSI(6) })).toBeLessThan(5);
  });

  it("says the same as the laws, and no more than a day and a week", () => {
    expect(at(97).t_day).toBeCloseTo(law(hearing.permittedTime, { ...niosh, p: level(97) }), 6);
    expect(at(97).t_week).toBeCloseTo(law(hearing.allowedTime, { E: criteria.E_w, p: level(97) }), 6);
    expect([at(50).t_day, at(50).t_week]).toEqual([86400, 604800]);
  });

  it("leaves an amplifier that can make 123 dB some seconds a day, and a week", () => {
    expect(at(123).t_day).toBeLessThan(5);
    expect(at(123).t_week).toBeLessThan(10);
  });
});

describe("hearing.allowanceCurve", () => {
  it("is a straight line in logarithms through 40 h at 80 dBA", () => {
    const { t } = hearing.allowanceCurve.evaluate({ E: stated.value("week-adults"), p_1: level(70), p_2: level(110) });
    const [x, y] = [Array.from(t.x), Array.from(t.y)];
    expect(x.length).toBe(y.length);
    expect(dBA.fromSI(x.at(-1) ?? 0)).toBeCloseTo(110, 12);
    const middle = x.findIndex((p) => Math.abs(dBA.fromSI(p) - 80) < 1e-6);
    expect((y[middle] ?? 0) / 3600).toBeCloseTo(40, 6);
    expect((y[0] ?? 0) * (x[0] ?? 0) ** 2).toBeCloseTo((y.at(-1) ?? 0) * (x.at(-1) ?? 0) ** 2, 6);
  });
});
