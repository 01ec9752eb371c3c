import { rails } from "../../../lib/physics";
import { type Computed, checkRows, law, si } from "../check-rows";

/** "10 µF, 5 mohm, 1 nH" as the kind k of a bank. */
function kind(k: number, text = "0 F, 0 ohm, 0 H") {
  const [C, ESR, ESL] = text.split(",").map(si);
  return { [`C_${k}`]: C, [`ESR_${k}`]: ESR, [`ESL_${k}`]: ESL, [`n_${k}`]: C === 0 ? 0 : 1 };
}

type Bank = Omit<Parameters<typeof rails.bankImpedance.evaluate>[0], "f">;

/** Each row computed with the library, by the names of its expected values. */
const computed: Computed = {
  "rails-01": ({ Vin, Vout, Iout, f, L, C }) => {
    const given = { V_in: si(Vin), V_out: si(Vout), I_out: si(Iout), f: si(f), L: si(L), C: si(C) };
    const D = law(rails.boostDuty, given);
    const dI = law(rails.inductorRipple, { ...given, D });
    const I_L = law(rails.inductorCurrent, { ...given, D });
    return { D, dI, I_L, I_pk: law(rails.peakInductorCurrent, { I_L, dI }), dV: law(rails.outputCapacitorRipple, { ...given, D }) };
  },
  "rails-02": ({ Vin, Vout, Iout, f, L }) => {
    const given = { V_in: si(Vin), V_out: si(Vout), I_out: si(Iout), f: si(f), L: si(L), eta: 1 };
    const { D, dI } = rails.boostOperation.evaluate(given);
    return { I_C_rms: law(rails.outputCapacitorCurrent, { ...given, D, dI }), I_out_crit: law(rails.conductionBorder, { D, dI }) };
  },
  "rails-05": ({ L, C, R }) => {
    const Z_0 = law(rails.characteristicImpedance, { L: si(L), C: si(C) });
    const Q = law(rails.parallelQuality, { R: si(R), Z_0 });
    return { f0: law(rails.cornerFrequency, { L: si(L), C: si(C) }), Z0: Z_0, Q, zeta: law(rails.dampingRatio, { Q }) };
  },
  "rails-07": ({ C, L }) => ({ f: law(rails.selfResonance, { C: si(C), L: si(L) }) }),
  "rails-08": ({ C1, C2 }) => {
    const bank = { ...kind(1, C1), ...kind(2, C2), ...kind(3), ...kind(4) } as Bank;
    const Z = (f: number): number => rails.bankImpedance.evaluate({ f, ...bank }).Z;
    const top = rails.bankAntiResonance.evaluate({ f_1: 1e5, f_2: 1e9, ...bank });
    return { Z_1MHz: Z(1e6), Z_10MHz: Z(1e7), Z_100MHz: Z(1e8), f_anti: top.f, Z_anti: top.Z };
  },
  "rails-10": ({ ripple, f, PSRR_dc, corner }) => {
    const A = law(rails.straightRejection, { A_0: si(PSRR_dc), f: si(f), f_c: si(corner) });
    return { PSRR: A, V_out: law(rails.rejectedRipple, { V_r: si(ripple), G: 1, A }) };
  },
  "rails-13": ({ Vin, Vout, f, L, C }) => {
    const given = { V_in: si(Vin), V_out: si(Vout), f: si(f), L: si(L), C: si(C) };
    const D = law(rails.buckDuty, given);
    const dI = law(rails.buckInductorRipple, { ...given, D });
    return { D, dI, dV: law(rails.buckOutputRipple, { ...given, dI }) };
  },
};

checkRows("rails", computed, 22);
