/** Volumes, masses and heights of an enclosure, as formulas. L, W and H are outer dimensions. */
import { commonPractice, formula } from "../../formula/formula";
import { cm2, cm3, g_per_cm3, gram, mm, one } from "../../units";

const geometry = "geometry";

export const roundedBoxVolume = formula(
  "V = (L - 2*r)*(W - 2*r)*(H - 2*r) + 2*r*((L - 2*r)*(W - 2*r) + (W - 2*r)*(H - 2*r) + (H - 2*r)*(L - 2*r)) + pi*r^2*(L + W + H - 6*r) + 4/3*pi*r^3",
  { L: mm, W: mm, H: mm, r: mm },
  cm3,
  {
    meaning: "volume of a solid box with all edges and corners rounded to the radius r, at most half the shortest side",
    source: "Steiner's formula for the parallel body of a box",
    valid: { r: ">= 0 mm" },
  },
);

export const roundedBoxArea = formula(
  "A = 2*((L - 2*r)*(W - 2*r) + (W - 2*r)*(H - 2*r) + (H - 2*r)*(L - 2*r)) + 2*pi*r*(L + W + H - 6*r) + 4*pi*r^2",
  { L: mm, W: mm, H: mm, r: mm },
  cm2,
  {
    meaning:
      "surface of a box with all edges and corners rounded to the radius r, at most half the shortest side: flat faces, quarter cylinders, eighths of a ball",
    source: "Steiner's formula for the parallel body of a box",
    valid: { r: ">= 0 mm" },
  },
);

export const innerRadius = formula("r_i = max(r - t, 0)", { r: mm, t: mm }, mm, {
  meaning: "inner radius of an edge of outer radius r and wall t: never negative",
  source: geometry,
  valid: { r: ">= 0 mm", t: "> 0 mm" },
});

export const sharpShellVolume = formula("V = L*W*H - (L - 2*t)*(W - 2*t)*(H - 2*t)", { L: mm, W: mm, H: mm, t: mm }, cm3, {
  meaning: "volume of material of a closed box with sharp edges and walls t",
  source: geometry,
  valid: { t: "> 0 mm" },
});

export const areaTimesWall = formula("V = 2*t*(L*W + W*H + H*L)", { L: mm, W: mm, H: mm, t: mm }, cm3, {
  meaning: "outer area times wall: counts every edge twice, so it overstates the material of a shell, by 8 % at 100 × 60 × 20 × 2 mm",
  source: commonPractice,
  valid: { t: "> 0 mm" },
});

export const bossVolume = formula("V_b = n*pi/4*(d_o^2 - d_i^2)*h", { n: one, d_o: mm, d_i: mm, h: mm }, cm3, {
  meaning: "volume of material of n screw bosses of outer diameter d_o, bore d_i and height h",
  source: geometry,
  valid: { n: ">= 0", d_o: "> 0 mm", d_i: ">= 0 mm", h: ">= 0 mm" },
});

export const clipVolume = formula("V_c = w*t*(l_1 + l_2 + pi*(r + t/2))", { w: mm, t: mm, l_1: mm, l_2: mm, r: mm }, cm3, {
  meaning: "volume of a clip bent from strip of width w and thickness t: two legs l_1 and l_2 joined by half a turn of inner radius r",
  source: "geometry; the middle line keeps its length",
  valid: { w: "> 0 mm", t: "> 0 mm", r: ">= 0 mm" },
});

export const mass = formula("m = rho*V", { rho: g_per_cm3, V: cm3 }, gram, {
  meaning: "mass of a volume V of a material of density rho",
  source: "ISO 80000-4:2019, 4-2",
  valid: { rho: "> 0 g/cm³" },
});

export const innerHeight = formula("H_i = H - 2*t", { H: mm, t: mm }, mm, {
  meaning: "height inside a box of outer height H with a wall t at the top and one at the bottom",
  source: geometry,
  valid: { t: "> 0 mm" },
});

export const swollenThickness = formula("h_s = h_c*(1 + s)", { h_c: mm, s: one }, mm, {
  meaning: "thickness of a pouch cell of new thickness h_c after it has swollen by the share s",
  source: commonPractice,
  valid: { h_c: "> 0 mm", s: "0 to 0.3" },
});

export const stackHeight = formula("h = h_c*(1 + s) + h_b + h_p + w", { h_c: mm, s: one, h_b: mm, h_p: mm, w: mm }, mm, {
  meaning:
    "height needed inside: the cell h_c swollen by the share s, the board h_b, the parts h_p on it, and the deflection w of the wall",
  source: commonPractice,
  valid: { h_c: "> 0 mm", s: "0 to 0.3", h_b: ">= 0 mm", h_p: ">= 0 mm", w: ">= 0 mm" },
});

export const clearance = formula("c = H - 2*t - h", { H: mm, t: mm, h: mm }, mm, {
  meaning: "height left over inside a box of outer height H and walls t above a stack of height h",
  source: geometry,
  valid: { t: "> 0 mm" },
});
