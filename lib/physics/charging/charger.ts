/**
 * Chargers: what they give a cell below their constant voltage. A linear one passes its input current on and turns the
 * rest of the voltage into heat; a switching one passes the power on, less its losses. Both are held back by what the
 * source leaves. Common practice, no source.
 */
import { WorkingsError } from "../../quantity/error";
import type { Charger, LimitedCurrent } from "./cell";

/** Settings: A, V; I_pre up to V_pre (0 V for none); V_in in V at the charger, I_in in A what its source leaves for the charge. */
export interface ChargerSetting {
  readonly I: number;
  readonly V_cv: number;
  readonly I_end: number;
  readonly I_pre: number;
  readonly V_pre: number;
  readonly V_in: number;
  readonly I_in: number;
}

/** R_on in Ω of the pass element fully on; P_max in W, the heat it allows itself. */
export interface LinearPart {
  readonly R_on: number;
  readonly P_max: number;
}

const causes = { setting: 0, precharge: 1, source: 2, heat: 3, dropout: 4 } as const;

/** A linear charger: also held back by its heat and, near the input voltage, by R_on. */
export function linearCharger(setting: ChargerSetting, { R_on, P_max }: LinearPart): Charger {
  requireSetting(setting);
  if (!(R_on >= 0 && P_max > 0))
    throw new WorkingsError("not-finite", `a linear charger needs R_on ≥ 0 and P_max > 0; got ${R_on} Ω and ${P_max} W`);
  const { V_in, I_in, ...rest } = setting;
  return {
    ...rest,
    limit: (u, R) => {
      const over = Math.max(0, V_in - u);
      const first = least(settingAt(setting, u, R), { I: I_in, cause: causes.source });
      const dropped = least(first, { I: R + R_on > 0 ? over / (R + R_on) : over > 0 ? Infinity : 0, cause: causes.dropout });
      return least(dropped, { I: heatCurrent(over, R, P_max), cause: causes.heat });
    },
    heat: (V, I) => (V_in - V) * I,
  };
}

/** A switching (buck) charger of the efficiency eta (0 to 1). */
export function switchingCharger(setting: ChargerSetting, eta: number): Charger {
  requireSetting(setting);
  if (!(eta > 0 && eta <= 1)) throw new WorkingsError("not-finite", `a charger's efficiency lies above 0 and is at most 1, not ${eta}`);
  const { V_in, I_in, ...rest } = setting;
  const P = eta * V_in * I_in;
  return {
    ...rest,
    limit: (u, R) => least(settingAt(setting, u, R), { I: (2 * P) / (u + Math.sqrt(u * u + 4 * R * P)), cause: causes.source }),
    heat: (V, I) => V * I * (1 / eta - 1),
  };
}

function settingAt({ I, I_pre, V_pre }: ChargerSetting, u: number, R: number): LimitedCurrent {
  return u + I_pre * R < V_pre ? { I: Math.min(I, I_pre), cause: causes.precharge } : { I, cause: causes.setting };
}

function least(a: LimitedCurrent, b: LimitedCurrent): LimitedCurrent {
  return b.I < a.I ? b : a;
}

/** Lower root of I·(over − I·R) = P; without bound where no current makes that heat. */
function heatCurrent(over: number, R: number, P: number): number {
  const square = over * over - 4 * R * P;
  return square < 0 || over === 0 ? Infinity : (2 * P) / (over + Math.sqrt(square));
}

function requireSetting({ I, I_pre, V_pre, V_in, I_in }: ChargerSetting): void {
  if (V_pre > 0 && !(I_pre > 0)) {
    throw new WorkingsError("not-finite", `a charger that begins gently up to ${V_pre} V needs a current for it, not ${I_pre} A`);
  }
  if (I > 0 && V_in > 0 && I_in > 0) return;
  throw new WorkingsError(
    "nominal-domain",
    `a charger needs a setting, a supply and a source that leaves it current; got I = ${I} A, V_in = ${V_in} V, I_in = ${I_in} A`,
  );
}
