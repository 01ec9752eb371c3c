import { curveArgument } from "../../../lib/graph/model";
import { battery } from "../../../lib/physics";
import { type Computed, checkRows, law, reference, si } from "../check-rows";

const usb = reference("usb");

const offered = (name: string): number => usb.value(name);
const straight = (a: number, b: number) => curveArgument({ x: Float64Array.of(0, 1), y: Float64Array.of(a, a + b) });

/** Each row computed with the library, by the names of its expected values. */
const computed: Computed = {
  "battery-01": ({ I, Q }) => ({
    C_rate: law(battery.cRate, { I: si(I), Q: si(Q) }),
    "I_0.5C": law(battery.currentAtRate, { x: si("0.5 1/h"), Q: si(Q) }),
  }),
  "battery-02": ({ Q, V }) => {
    const E = law(battery.storedEnergy, { Q: si(Q), V: si(V) });
    return { E_Wh: E, E_J: E };
  },
  "battery-04": ({ a, b, R, Vcv, I, I_end, Q, s0 }) => {
    const cell = { a: si(a), b: si(b), R: si(R), Q: si(Q), s_0: si(s0) };
    const { I_start, t, ...rest } = battery.linearChargeTime.evaluate({ ...cell, V_cv: si(Vcv), I: si(I), I_end: si(I_end) });
    return { ...rest, I_start_cv: I_start, t_total: t };
  },
  "battery-07": ({ V, R, P }) => {
    const { I, V_t, P_loss } = battery.constantPowerLoad.evaluate({ V_oc: si(V), R: si(R), P: si(P) });
    return { I, V_term: V_t, P_loss, P_max: law(battery.maximumPower, { V_oc: si(V), R: si(R) }) };
  },
  "battery-09": ({ a, b, R, P, Q }) => {
    // Full to empty: a cut-off that the terminal voltage never reaches
    const use = { P: si(P), Q: si(Q), V_c: 1, s_0: 1, ocv: straight(si(a), si(b)) };
    const runtime = (ohms: number): number => battery.runtimeAtPower.evaluate({ ...use, R: ohms }).t;
    return { t: runtime(si(R)), t_R0: runtime(0) };
  },
  "battery-11": ({ E, k, eta, P }) => ({ t: law(battery.runtimeByEnergy, { E: si(E), k: si(k), eta: si(eta), P: si(P) }) }),
  "battery-12": () => ({
    usb2_unconfigured: offered("usb2-unconfigured"),
    usb2_configured: offered("usb2-configured"),
    bc12_dcp: offered("bc12-dedicated"),
    typec_medium: offered("type-c-medium"),
    typec_high: offered("type-c-high"),
  }),
  "battery-14": ({ Vbus, I_usb, Vcell, eta }) => {
    const source = { V_bus: si(Vbus), V_cell: si(Vcell) };
    const I_sw = law(battery.switchingChargeCurrent, { ...source, eta: si(eta), I_bus: si(I_usb) });
    return { I_lin: si(I_usb), P_lin: law(battery.linearChargerLoss, { ...source, I: si(I_usb) }), I_sw };
  },
  "battery-15": ({ I_pulse, I_base, t_on, period, R }) => {
    const pulse = { D: si(t_on) / si(period), I_1: si(I_pulse), I_0: si(I_base) };
    const I_rms = law(battery.pulseRms, pulse);
    return {
      I_avg: law(battery.pulseAverage, pulse),
      I_rms,
      P_loss: law(battery.resistanceLoss, { I_rms, R: si(R) }),
      droop: law(battery.sag, { I: si(I_pulse), R: si(R) }),
    };
  },
};

checkRows("battery", computed, 28);
