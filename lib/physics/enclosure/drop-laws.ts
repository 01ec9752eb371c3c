/**
 * A drop on a flat face, as formulas: the whole mass lands at once on one undamped linear spring of stiffness k, the
 * lumped compliance of shell, pads, feet and floor. Without loss this is the upper bound for its k; a shell that lands
 * on a corner, a spring that hardens or bottoms out, and parts that ring on the board are left out.
 */
import { commonPractice, formula } from "../../formula/formula";
import { celsius, g_n, gram, joule, MPa, m_per_s, metre, mm, mm2, ms, N_per_mm, newton, one, per_kelvin } from "../../units";

const energy = "energy balance of a mass on a linear spring";

export const dropEnergy = formula("E = m*g*h", { m: gram, g: g_n, h: metre }, joule, {
  meaning: "energy at impact of a mass m that falls from the height h",
  source: "conservation of energy",
  valid: { m: "> 0 g", h: ">= 0 m" },
});

export const impactSpeed = formula("v = sqrt(2*g*h)", { g: g_n, h: metre }, m_per_s, {
  meaning: "speed at impact after a free fall from the height h, drag neglected",
  source: "conservation of energy",
  valid: { h: ">= 0 m" },
});

export const peakForce = formula("F = m*g + sqrt((m*g)^2 + 2*m*g*h*k)", { m: gram, g: g_n, h: metre, k: N_per_mm }, newton, {
  meaning: "peak contact force of a mass m that falls from the height h on a spring k, its weight included: twice the weight at h = 0",
  source: energy,
  valid: { m: "> 0 g", h: ">= 0 m", k: "> 0 N/mm" },
});

export const peakForceByEnergy = formula("F = sqrt(2*m*g*h*k)", { m: gram, g: g_n, h: metre, k: N_per_mm }, newton, {
  meaning: "peak contact force of a mass m that falls from the height h on a spring k, its weight neglected beside the force",
  source: energy,
  valid: { m: "> 0 g", h: ">= 0 m", k: "> 0 N/mm" },
});

export const peakDeceleration = formula("a = g + sqrt(g^2 + 2*g*h*k/m)", { g: g_n, h: metre, k: N_per_mm, m: gram }, g_n, {
  meaning: "peak deceleration as an accelerometer on the board reads it: contact force over mass",
  source: energy,
  valid: { m: "> 0 g", h: ">= 0 m", k: "> 0 N/mm" },
});

export const allowedStiffness = formula("k = m*a*(a - 2*g)/(2*g*h)", { m: gram, a: g_n, g: g_n, h: metre }, N_per_mm, {
  meaning: "stiffness at which a drop from the height h gives the peak deceleration a: peakDeceleration turned round",
  source: energy,
  valid: { m: "> 0 g", a: "> 2 g_n", h: "> 0 m" },
});

export const stoppingDistance = formula("x = F/k", { F: newton, k: N_per_mm }, mm, {
  meaning: "compression of the spring k at the peak force F: how far the board's fixing has to give",
  source: "Hooke's law",
  valid: { k: "> 0 N/mm" },
});

export const neededTravel = formula("x = 2*h/(a/g - 2)", { h: metre, a: g_n, g: g_n }, mm, {
  meaning:
    "travel in which a linear spring stops a fall from the height h without more than the peak deceleration a, whatever the mass: the least room that a board needs for it",
  source: energy,
  valid: { h: ">= 0 m", a: "> 2 g_n" },
});

export const landingDeceleration = formula("a = 2*g*(1 + h/(u*c))", { g: g_n, h: metre, u: one, c: mm }, g_n, {
  meaning:
    "peak deceleration of a landing in which a linear spring gives by the share u of the free height c that it has, whatever the mass: peakDeceleration by way of the travel",
  source: energy,
  valid: { h: ">= 0 m", u: "0 to 1", c: "> 0 mm" },
  holds: "within the free height; what a landing meets that would take more is no spring, and stiffer",
});

export const contactTime = formula("tau = pi*sqrt(m/k)", { m: gram, k: N_per_mm }, ms, {
  meaning: "time from touch to rebound, half a period of the mass on its spring; the pulse is half a sine",
  source: "half period of a mass on a linear spring, weight neglected",
  valid: { m: "> 0 g", k: "> 0 N/mm" },
});

export const measuredStiffness = formula("k = F/x", { F: newton, x: mm }, N_per_mm, {
  meaning: "stiffness from a measured force F and the deflection x that it gives",
  source: "Hooke's law",
  valid: { x: "> 0 mm" },
});

const blocks =
  "A. N. Gent and P. B. Lindley, Proc. Institution of Mechanical Engineers 173 (1959) 111; P. B. Lindley, Engineering Design with Natural Rubber (from memory)";

export const padShapeFactor = formula("S = A/(p*t)", { A: mm2, p: mm, t: mm }, one, {
  meaning: "shape factor of one pad of area A, perimeter p and thickness t: one loaded face over the surface that is free to bulge",
  source: blocks,
  valid: { A: "> 0 mm²", p: "> 0 mm", t: "> 0 mm" },
});

export const padStiffness = formula("k = E*(1 + 2*kappa*S^2)*A/t", { E: MPa, kappa: one, S: one, A: mm2, t: mm }, N_per_mm, {
  meaning:
    "stiffness of elastomer pads of total area A, thickness t, Young's modulus E and shape factor S, whose faces are bonded or held by friction; kappa falls with hardness: 0.93 at 30 IRHD, 0.73 at 50, 0.53 at 70; 0 where the faces slip",
  source: blocks,
  valid: { E: "> 0 MPa", kappa: "0 to 1", S: "0 to 3", A: "> 0 mm²", t: "> 0 mm" },
  holds: "square, round and moderately oblong pads to some 15 % of compression, beyond which they harden (`padTravel`)",
});

export const seriesStiffness = formula("k = k_1*k_2/(k_1 + k_2)", { k_1: N_per_mm, k_2: N_per_mm }, N_per_mm, {
  meaning: "stiffness of two springs one behind the other, such as a shell on its pads",
  source: "springs in series",
  valid: { k_1: "> 0 N/mm", k_2: "> 0 N/mm" },
});

export const bossForce = formula("F_b = m_b*a/n", { m_b: gram, a: g_n, n: one }, newton, {
  meaning: "force on each of n bosses that share the inertia of a board of mass m_b at the deceleration a",
  source: commonPractice,
  valid: { m_b: "> 0 g", n: ">= 1" },
});

export const bossStress = formula("sigma = K_t*F_b/(pi/4*(d_o^2 - d_i^2))", { K_t: one, F_b: newton, d_o: mm, d_i: mm }, MPa, {
  meaning: "stress along a boss of outer diameter d_o and bore d_i under the axial force F_b, raised by the factor K_t at its root",
  source: commonPractice,
  valid: { K_t: ">= 1", d_o: "> 0 mm", d_i: ">= 0 mm" },
});

export const bossBendingStress = formula(
  "sigma = K_t*32*F_b*l*d_o/(pi*(d_o^4 - d_i^4))",
  { K_t: one, F_b: newton, l: mm, d_o: mm, d_i: mm },
  MPa,
  {
    meaning: "bending stress at the root of a boss of length l under the sideways force F_b at its end, raised by the factor K_t",
    source: "Euler–Bernoulli bending of a cantilever tube",
    valid: { K_t: ">= 1", l: "> 0 mm", d_o: "> 0 mm", d_i: ">= 0 mm" },
  },
);

export const yieldShare = formula("eta = sigma/sigma_y", { sigma: MPa, sigma_y: MPa }, one, {
  meaning: "share of the yield stress sigma_y that the stress sigma uses",
  source: commonPractice,
  valid: { sigma_y: "> 0 MPa" },
});

export const stiffnessAtTemperature = formula(
  "k = k_0*(1 + beta*(T - T_0))",
  { k_0: N_per_mm, beta: per_kelvin, T: celsius, T_0: celsius },
  N_per_mm,
  {
    meaning: "stiffness of a plastic part at the temperature T, from that at T_0; beta is negative, plastics stiffen in the cold",
    source: commonPractice,
    valid: { T: "253 K to 333 K" },
  },
);

export const yieldAtTemperature = formula(
  "sigma_y = sigma_0*(1 + beta*(T - T_0))",
  { sigma_0: MPa, beta: per_kelvin, T: celsius, T_0: celsius },
  MPa,
  {
    meaning:
      "yield stress of a plastic at the temperature T, from that at T_0; beta is negative, plastics are stronger, and more brittle, in the cold",
    source: commonPractice,
    valid: { T: "253 K to 333 K" },
  },
);
