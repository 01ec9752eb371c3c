/** A discharge is followed to its end, however long it rings or its choke carries on: balance of energy, closed forms. */
import { describe, expect, it } from "vitest";
import { circuit, esd } from "../../../lib/physics";
import { bodyStrike, type ChargedBody, type Protection } from "../../../lib/physics/esd/protection";

/** A clamp at the connector alone: the pin stands behind so much resistance that it takes nothing. */
const clampOnly: Protection = {
  L_st: 0,
  V_br: 10,
  R_dyn: 0.5,
  C_cl: 1e-12,
  L: 0,
  L_sat: 0,
  I_sat: 1,
  R_dc: 0,
  R_p: 1e12,
  R: 1e9,
  C_pin: 1e-15,
  V_rail: 0,
  V_f: 20,
  R_pin: 1,
};

/**
 * Half-swings of L, C and R into a clamp of V_br behind R_dyn, in turn: each is that of a damped resonance about ∓V_br.
 * The clamp takes V_br·|Q| + R_dyn·∫i² of each.
 */
function halfSwings({ U, C_0, R_0, L_0 }: ChargedBody, { V_br, R_dyn }: Protection): { readonly peak: number; readonly E: number } {
  const R = R_0 + R_dyn;
  const alpha = R / (2 * L_0);
  const omega = Math.sqrt(1 / (L_0 * C_0) - alpha * alpha);
  const decay = Math.exp((-alpha * Math.PI) / omega);
  const t = Math.atan2(omega, alpha) / omega;
  const peak = ((U - V_br) / (omega * L_0)) * Math.exp(-alpha * t) * Math.sin(omega * t);
  let [v, E] = [U, 0];
  while (v > V_br) {
    const after = (v - V_br) * decay - V_br;
    const charge = C_0 * (v + after);
    // Energy balance of the half-swing: what is not V_br·Q is I²·R, shared between both resistances
    const ohmic = (C_0 * (v * v - after * after)) / 2 - V_br * charge;
    E += V_br * charge + (ohmic * R_dyn) / R;
    v = after;
  }
  return { peak, E };
}

describe("bodyDischarge where the discharge rings", () => {
  it.each([
    ["at 10 Ω", { U: 2000, C_0: 1e-9, R_0: 10, L_0: 5e-6 }],
    ["at 1 Ω, which dies after hundreds of swings", { U: 2000, C_0: 1e-9, R_0: 1, L_0: 5e-6 }],
    ["at 1 mΩ, where the clamp alone stills it", { U: 2000, C_0: 1e-9, R_0: 1e-3, L_0: 5e-6 }],
    ["with a long and slow way, 1 mH", { U: 8000, C_0: 150e-12, R_0: 330, L_0: 1e-3 }],
  ])("%s has the peak and the clamp's energy of its half-swings in closed form", (_, body) => {
    const { I_cl, E_cl } = esd.bodyDischarge.evaluate({ ...body, ...clampOnly });
    const { peak, E } = halfSwings(body, clampOnly);
    expect(Math.abs(I_cl / peak - 1)).toBeLessThan(5e-3);
    expect(Math.abs(E_cl / E - 1)).toBeLessThan(1e-2);
  });

  it("gives off half C·U² in all, for resistances, inductances and capacitances over many decades", () => {
    let state = 11;
    const drawn = (low: number, high: number): number => {
      state = (state * 48271) % 2147483647;
      return low * (high / low) ** (state / 2147483647);
    };
    for (let k = 0; k < 40; k++) {
      const body = { U: drawn(200, 15000), C_0: drawn(1e-11, 1e-8), R_0: drawn(0.1, 1e4), L_0: drawn(1e-9, 1e-4) };
      const protection = { ...clampOnly, R: 22, V_br: drawn(5, 30), R_dyn: drawn(0.1, 2), C_pin: 5e-12, V_f: 0.7 };
      // Without resistance of its own the generator gives all to the network: E_cl + E_R + E_pin is the rest of the balance
      const { E_cl, E_R, E_pin } = bodyStrike(protection, body);
      const far = circuit.transient(esd.bodyCircuit(protection, body), { stop: 400 * Math.max(body.C_0 * body.R_0, body.L_0 / body.R_0) });
      const parts = [far.energy("clamp"), far.energy("R"), far.energy("pin_clamp")];
      const whole = (body.C_0 * body.U ** 2) / 2;
      expect(Math.abs((parts.reduce((a, b) => a + b) + far.energy("R_0")) / whole - 1)).toBeLessThan(0.01);
      for (const [i, got] of [E_cl, E_R, E_pin].entries()) {
        expect(Math.abs(got - (parts[i] as number)), `part ${i} of ${JSON.stringify(body)}`).toBeLessThan(
          0.015 * (parts[i] as number) + 1e-5 * whole,
        );
      }
    }
  });
});

describe("contactDischarge where nothing stores a charge", () => {
  it("ends with the pulse", () => {
    const bare: Protection = { ...clampOnly, V_br: 1e6, C_cl: 0, R: 0, C_pin: 0, V_f: 0.7 };
    const { I_pin, E_pin } = esd.contactDischarge.evaluate({ U: 4000, ...bare });
    expect(I_pin).toBeCloseTo(14.92, 1);
    // 0.7 V·∫i dt + 1 Ω·∫i² dt, summed
    let [Q, square] = [0, 0];
    for (let t = 0; t < 500e-9; t += 1e-11) {
      const { i } = esd.pulseCurrent.evaluate({ U: 4000, t });
      Q += i * 1e-11;
      square += i * i * 1e-11;
    }
    expect(E_pin / (0.7 * Q + square)).toBeCloseTo(1, 2);
  });
});

describe("contactDischarge where a choke carries on after the pulse", () => {
  it("gives the pin all of it: 100 µH that does not saturate, through 1 Ω, takes a hundred times the pulse's time", () => {
    const slow: Protection = { ...clampOnly, V_br: 50, L: 100e-6, L_sat: 100e-6, R_p: 1e6, R: 1, C_pin: 5e-12, V_f: 0.6, R_pin: 0.3 };
    const { E_pin } = esd.contactDischarge.evaluate({ U: 8000, ...slow });
    const long = circuit.transient(esd.dischargeCircuit(slow, 8000), { stop: 4e-3, tolerance: 1e-3 });
    expect(Math.abs(E_pin / long.energy("pin_clamp") - 1)).toBeLessThan(0.02);
  });
});
