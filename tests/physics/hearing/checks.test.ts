import { hearing } from "../../../lib/physics";
import { type CheckRow, checkRows, law, reference, si } from "../check-rows";

const stated = reference("hearing");
const criterion = (name: "niosh" | "osha") => ({
  p_c: stated.value(`${name}-level`),
  t_c: stated.value(`${name}-time`),
  q: stated.value(`${name}-exchange`),
});
const permitted = (name: "niosh" | "osha", level: string): number =>
  law(hearing.permittedTime, { ...criterion(name), p: si(`${level} dBA`) });
const each = (name: "niosh" | "osha") => (_: unknown, expected: CheckRow["expected"]) =>
  Object.fromEntries(Object.keys(expected).map((level) => [level, permitted(name, level)]));
const exposed = (text: string | undefined): readonly (readonly [t: number, p: number])[] =>
  [...(text ?? "").matchAll(/([\d.]+ h) at ([\d.]+ dBA)/g)].map(([, time, level]) => [si(time), si(level)]);

checkRows(
  "hearing",
  {
    "hearing-01": each("niosh"),
    "hearing-03": each("osha"),
    "hearing-05": ({ exposure }) => {
      const [[t_1, p_1], [t_2, p_2]] = exposed(exposure) as [readonly [number, number], readonly [number, number]];
      const time = (p: number): number => law(hearing.permittedTime, { ...criterion("niosh"), p });
      const D = law(hearing.doseOfTwo, { t_1, t_p1: time(p_1), t_2, t_p2: time(p_2) });
      const { p_c, q } = criterion("niosh");
      return { D, TWA: law(hearing.averageOfDose, { p_c, q, D }) };
    },
    "hearing-07": ({ E_week }) => {
      const time = (level: string): number => law(hearing.allowedTime, { E: si(E_week), p: si(level) });
      return {
        E: law(hearing.soundExposure, { p: si("80 dBA"), t: si("40 h") }),
        t_80: time("80 dBA"),
        t_89: time("89 dBA"),
        t_90: time("90 dBA"),
      };
    },
    "hearing-09": ({ exposure }) => {
      const [[t_1, p_1], [t_2, p_2]] = exposed(exposure) as [readonly [number, number], readonly [number, number]];
      const E = law(hearing.soundExposure, { p: p_1, t: t_1 }) + law(hearing.soundExposure, { p: p_2, t: t_2 });
      return {
        E,
        CSD: law(hearing.doseShare, { E, E_w: stated.value("week-adults") }),
        Leq: law(hearing.averagePressure, { p_1, t_1, p_2, t_2 }),
      };
    },
    "hearing-10": ({ E }) => ({
      L_8h: law(hearing.allowedPressure, { E: si(E), t: si("8 h") }),
      L_40h: law(hearing.allowedPressure, { E: si(E), t: si("40 h") }),
    }),
    "hearing-12": () => ({
      L_max: stated.value("player-level"),
      V_player_max: stated.value("player-voltage"),
      V_headphone_min: stated.value("headphone-voltage"),
    }),
  },
  22,
);
