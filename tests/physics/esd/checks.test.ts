import { esd } from "../../../lib/physics";
import { normalising } from "../../../lib/physics/esd/waveform";
import { type Computed, checkRows, law, reference, si } from "../check-rows";

const levels = reference("esd");

const stated = (name: string): number => levels.value(name);
const [breakdown, dynamic] = [/([\d.]+ V)/, /([\d.]+ ohm)/].map((form) => (text: string | undefined) => si(form.exec(text ?? "")?.[1])) as [
  (text: string | undefined) => number,
  (text: string | undefined) => number,
];

/** Each row computed with the library, by the names of its expected values. */
const computed: Computed = {
  "esd-01": (_, expected) => {
    const laws = { Ip: esd.firstPeak, I30: esd.currentAt30ns, I60: esd.currentAt60ns };
    const names = Object.keys(expected).map((name) => name.split("_") as [keyof typeof laws, string]);
    return Object.fromEntries(names.map(([which, U]) => [`${which}_${U}`, law(laws[which], { U: si(U.replace("kV", " kV")) })]));
  },
  "esd-02": () => ({
    Ip_tol: stated("first-peak-tolerance"),
    I30_tol: stated("current-30ns-tolerance"),
    I60_tol: stated("current-60ns-tolerance"),
    t_r: stated("rise-time"),
    t_r_tol: stated("rise-time-tolerance"),
  }),
  "esd-04": ({ U, t1, t2, t3, t4 }) => {
    const { I_p, t_p } = esd.pulse.evaluate({ U: si(U) });
    const at = (t: number): number => esd.pulseCurrent.evaluate({ U: si(U), t }).i;
    return { k1: normalising(si(t1), si(t2)), k2: normalising(si(t3), si(t4)), I_peak: I_p, t_peak: t_p, i_30: at(30e-9), i_60: at(60e-9) };
  },
  "esd-06": ({ C, R, U }) => ({
    E: law(esd.storedEnergy, { C: si(C), U: si(U) }),
    Q: law(esd.storedCharge, { C: si(C), U: si(U) }),
    I_RC: law(esd.bodyPeak, { U: si(U), R: si(R) }),
    tau: law(esd.bodyTime, { R: si(R), C: si(C) }),
  }),
  "esd-08": ({ Vbr, Rdyn }) => {
    const V = (I: number): number => law(esd.residualVoltage, { V_br: si(Vbr), R_dyn: si(Rdyn), I });
    return { V_16: V(16), V_30: V(30) };
  },
  "esd-10": ({ C1, U }) => {
    const V = (C_2: number): number => law(esd.sharedVoltage, { U: si(U), C_1: si(C1), C_2 });
    return { V_100n: V(100e-9), V_10n: V(10e-9) };
  },
  "esd-11": ({ C0, U, Rg, clamp1, Rs, clamp2, C_pin }) => {
    const choke = { L: 0, L_sat: 0, I_sat: Infinity, R_dc: 0, R_p: Infinity };
    const board = { L_st: 0, V_br: breakdown(clamp1), R_dyn: dynamic(clamp1), C_cl: 0 };
    const pin = { C_pin: si(C_pin), V_rail: breakdown(clamp2), V_f: 0, R_pin: dynamic(clamp2) };
    const source = { U: si(U), C_0: si(C0), R_0: si(Rg), L_0: 0 };
    const struck = esd.bodyDischarge.evaluate({ ...source, ...board, ...choke, R: si(Rs), ...pin });
    return { V_clamp1: struck.V_j, V_pin: struck.V_pin, I_pin: struck.I_pin, E_pin: struck.E_pin };
  },
};

checkRows("esd", computed, 35);
