/** The rails sheet as a whole: another design, what its decisions turn, and its figures by other routes. */
import { describe, expect, it } from "vitest";
import { committedSheet } from "./any-sheet";

const { first, nominal, given, judge, keepsToTheDesign } = committedSheet("rails", "09-rails.ipynb");

describe("the rails worksheet", () => {
  keepsToTheDesign();

  it("holds what it is asked for, as decided", () => {
    expect(first.verdicts).toEqual({
      saturation: "holds",
      unheard: "holds",
      "residue-audio": "holds",
      "residue-above": "holds",
      "run-new": "holds for 95 %",
    });
  });

  it.each([
    ["small", "does not hold", "holds"],
    ["more", "holds", "does not hold"],
    ["large", "holds", "holds"],
  ])("judges the %s inductor: saturation %s, packets above what is heard %s", (name, saturation, unheard) => {
    expect(judge(`rails.inductor[${name}].M`, "saturation")).toBe(saturation);
    expect(judge(`rails.inductor[${name}].f_l`, "unheard")).toBe(unheard);
  });

  it("lets the small inductor hold at its best estimate, so that only the worst case tells", () => {
    expect(nominal("rails.inductor[small].M")).toBeGreaterThan(0);
  });

  it.each([
    ["bursts", "does not hold", "holds for 95 %"],
    ["large", "does not hold", "holds for 95 %"],
    ["small", "holds", "holds for 95 %"],
    ["forced", "holds", "does not hold"],
  ])("judges the mode %s: residue %s, runtime %s", (name, residue, runtime) => {
    expect(judge(`rails.mode[${name}].V`, "residue-audio")).toBe(residue);
    expect(judge(`rails.mode[${name}].t`, "run-new")).toBe(runtime);
  });

  it("needs the filter for the peaks of a full sine, and its damper for the packets", () => {
    expect(judge("rails.filter[none].V_l", "residue-above")).toBe("does not hold");
    expect(judge("rails.filter[plain].V_q", "residue-above")).toBe("does not hold");
    expect(judge("rails.filter[damped].V_q", "residue-above")).toBe("holds");
    expect(judge("rails.filter[damped].V_l", "residue-above")).toBe("holds");
  });

  it("misses by 20 to 40 dB with bursts, as rough sums had it", () => {
    const miss = 20 * Math.log10(nominal("rails.mode[bursts].V") / 0.5e-6);
    expect(miss).toBeGreaterThan(20);
    expect(miss).toBeLessThan(40);
  });
});

describe("figures of the rails worksheet by another route", () => {
  const [V_in, V, L, I, f] = [
    given("emission.cell"),
    given("rails.positive.voltage"),
    given("emission.edge.inductance"),
    given("emission.edge.packet"),
    given("emission.rate"),
  ];
  const silence = given("amplifier.channels") * nominal("battery.amplifier.I_q");

  it("sends as many packets as carry the load's energy: a balance of energy", () => {
    // of a boost packet the cell gives V_in·q while the inductor is emptied, the inductor L·I²/2
    const pulse = "rails.mode[small].pulse[boost]";
    const q = (I * nominal(`${pulse}.t_p`)) / 2;
    expect(q * (V - V_in)).toBeCloseTo((L * I * I) / 2, 15);
    expect(nominal(`${pulse}.f`) * q).toBeCloseTo(silence, 12);
    expect(nominal("rails.mode[small].pulse[inverting].f") * ((L * I * I) / 2)).toBeCloseTo(silence * V, 9);
  });

  it("has the peak of the inverting inductor that volt seconds and energy give", () => {
    const eta = given("rails.full");
    const load =
      given("amplifier.channels") *
      (nominal("battery.amplifier.I_q") + Math.sqrt((2 * given("listening.full")) / given("headphones.impedance")));
    const D = V / eta / (V_in + V / eta);
    // the cell gives what the load takes over the efficiency, during the share D
    const mean = (load * V) / eta / (V_in * D);
    expect(nominal("rails.inductor.down")).toBeCloseTo(mean + (V_in * D) / (f * L) / 2, 9);
  });

  it("drains the cell by what the two tables of losses say: the runtime of its modes follows the power", () => {
    const [t, P, P_s, eta] = ["battery.cell.t", "battery.converter.P", "battery.converter.P_s", "battery.converter.eta"].map(nominal) as [
      number,
      number,
      number,
      number,
    ];
    for (const name of ["large", "small", "forced"]) {
      const drawn = P - P_s / eta + P_s / nominal(`rails.mode[${name}].eta`);
      expect(nominal(`rails.mode[${name}].t`) * drawn).toBeCloseTo(t * P, 6);
    }
  });

  it("sends packets in silence as often as 50 ms of threshold, load and packets, walked through, do", () => {
    const C = nominal("rails.C_w");
    const q = (I * nominal("rails.mode[small].pulse[boost].t_p")) / 2;
    let [v, packets] = [0, 0];
    const dt = 1e-7;
    for (let t = 0; t < 0.05; t += dt) {
      v -= (silence * dt) / C;
      if (v <= 0) {
        v += q / C;
        packets += 1;
      }
    }
    expect(packets / 0.05 / nominal("rails.mode[small].pulse[boost].f")).toBeCloseTo(1, 2);
  });
});
