/** Closed laws of indicators and of light, as formulas. Angles of cones are full apex angles. */
import { commonPractice, formula } from "../../formula/formula";
import { ampere, candela, celsius, deg, lm_per_W, lumen, lux, metre, mW, ohm, one, per_kelvin, sr, volt, watt } from "../../units";

export const seriesResistor = formula("R = (V_s - V_f)/I", { V_s: volt, V_f: volt, I: ampere }, ohm, {
  meaning: "series resistor that lets the current I through a diode of forward voltage V_f",
  source: commonPractice,
  valid: { I: "> 0 A" },
});

export const resistorCurrent = formula("I = (V_s - V_f)/R", { V_s: volt, V_f: volt, R: ohm }, ampere, {
  meaning: "current through a series resistor, the diode's forward voltage taken as constant",
  source: commonPractice,
  valid: { R: "> 0 Ω" },
});

export const resistorPower = formula("P = (V_s - V_f)^2/R", { V_s: volt, V_f: volt, R: ohm }, mW, {
  meaning: "power in the series resistor; its worst case is at the highest supply, lowest forward voltage and lowest resistance",
  source: commonPractice,
  valid: { R: "> 0 Ω" },
});

export const pulsedAverage = formula("I_avg = D*I_p", { D: one, I_p: ampere }, ampere, {
  meaning: "average of a current pulsed at duty D: what the battery delivers and, roughly, what the eye sees",
  source: commonPractice,
  valid: { D: "0 to 1" },
});

export const pulsedRms = formula("I_rms = sqrt(D)*I_p", { D: one, I_p: ampere }, ampere, {
  meaning: "rms value of a current pulsed at duty D: what heats a resistor",
  source: commonPractice,
  valid: { D: "0 to 1" },
});

export const pulsedPower = formula("P = D*I_p^2*R", { D: one, I_p: ampere, R: ohm }, mW, {
  meaning: "power in a resistor that carries a current pulsed at duty D",
  source: commonPractice,
  valid: { D: "0 to 1" },
});

export const coneSolidAngle = formula("Omega = 2*pi*(1 - cos(theta/2))", { theta: deg }, sr, {
  meaning: "solid angle of a cone of full apex angle theta",
  source: "solid angle of a cone; ISO 80000-3:2019, 3-8",
  valid: { theta: "0° to 360°" },
});

export const coneFlux = formula("Phi_v = 2*pi*I_v*(1 - cos(theta/2))", { I_v: candela, theta: deg }, lumen, {
  meaning: "luminous flux of an intensity that is even over a cone of full apex angle theta",
  source: "ISO 80000-7:2019, 7-14, with the solid angle of a cone",
  valid: { theta: "0° to 360°" },
});

export const coneIntensity = formula("I_v = Phi_v/(2*pi*(1 - cos(theta/2)))", { Phi_v: lumen, theta: deg }, candela, {
  meaning: "luminous intensity of a flux spread evenly over a cone of full apex angle theta",
  source: "ISO 80000-7:2019, 7-14, with the solid angle of a cone",
  valid: { theta: "0° to 360°" },
});

export const lambertianFlux = formula("Phi_v = pi*I_v0", { I_v0: candela }, lumen, {
  meaning: "luminous flux of a Lambertian emitter whose intensity on its axis is I_v0",
  source: "Lambert's cosine law",
  valid: { I_v0: ">= 0" },
});

export const illuminance = formula("E_v = I_v/d^2", { I_v: candela, d: metre }, lux, {
  meaning: "illuminance on the axis at distance d from a small source, falling perpendicularly",
  source: "inverse-square law",
  valid: { d: "> 0 m" },
});

export const monochromaticFlux = formula("Phi_v = K_m*V*Phi_e", { K_m: lm_per_W, V: one, Phi_e: watt }, lumen, {
  meaning: "luminous flux of a radiant power at one wavelength, V the luminous efficiency there",
  source: "definition of the candela, SI Brochure, 9th edition (2019), 2.3.1; K_m = 683 lm/W",
  valid: { V: "0 to 1" },
});

export const acceptanceAngle = formula("theta = 2*atan(d/(2*g))", { d: metre, g: metre }, deg, {
  meaning: "full angle of the cone that a small emitter sends into a round pipe of diameter d across a gap g",
  source: "geometry",
  valid: { g: "> 0 m" },
});

export const acceptedShare = formula("eta = d^2/(d^2 + 4*g^2)", { d: metre, g: metre }, one, {
  meaning:
    "share of a small Lambertian emitter's flux that falls on a round pipe of diameter d across a gap g: the squared sine of half the acceptance angle",
  source: "Lambert's cosine law, integrated over the cone",
  valid: { g: "> 0 m" },
});

export const intensityByPowerLaw = formula(
  "I_v = I_v0*(I/I_0)^k*exp(alpha*(T - T_0))",
  { I_v0: candela, I: ampere, I_0: ampere, k: one, alpha: per_kelvin, T: celsius, T_0: celsius },
  candela,
  {
    meaning: "luminous intensity of an LED at current I and temperature T, from that at its rated current I_0 and temperature T_0",
    source: commonPractice,
    valid: { I: "> 0 A", k: "0.5 to 1.5", T: "233 K to 358 K" },
  },
);

export const currentByPowerLaw = formula(
  "I = I_0*(I_v/(I_v0*exp(alpha*(T - T_0))))^(1/k)",
  { I_v: candela, I_v0: candela, I_0: ampere, k: one, alpha: per_kelvin, T: celsius, T_0: celsius },
  ampere,
  {
    meaning: "current at which an LED gives the luminous intensity I_v at temperature T: the power law turned round",
    source: commonPractice,
    valid: { I_v: "> 0 cd", k: "0.5 to 1.5", T: "233 K to 358 K" },
  },
);
