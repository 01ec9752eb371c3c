/**
 * The runtime by brute force, for the test of the battery worksheet: straight from the numbers of a design file, one
 * second at a time, with none of the library's physics. Symbols in SI.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { readDesign } from "../../lib/design/read";
import { readReferences } from "../../lib/design/reference";
import type { Design } from "../../lib/design/types";
import { filesBeside } from "../../lib/sheet/project";
import { root } from "../root";

const tables = join(root, "data/reference");

/** The design in a text, with the repository's reference tables. */
export function design(text: string): Design {
  const files = readdirSync(tables).map((name) => [name, readFileSync(join(tables, name), "utf8")]);
  return readDesign(
    text,
    "design.yaml",
    readReferences(Object.fromEntries(files)),
    filesBeside(join(root, "data/bittern/design.yaml"), root),
  );
}

export const readings = (text: string) => design(text).readings;

/** Runtimes in s with a new and an aged cell, where the indicator takes P_ind watts from the cell. */
export function steppedRuntime(from: Design, P_ind: number): { readonly fresh: number; readonly aged: number } {
  const value = valueIn(from);
  const P = playPower(from, P_ind);
  const size = `battery.${from.decision("decisions.battery.cell").chosen}`;
  const T = value("battery.cold");
  const x = Math.exp((value("battery.activation") / 8.314462618) * (1 / T - 1 / value("battery.rated")));
  const R = x * (value("battery.resistance") + value("battery.diffusion"));
  const Q = value(`${size}.capacity`) * (1 - value("battery.cold-spread") * (1 - read(from, "battery.temperature", T)));
  const { share, growth } = age(from);
  return { fresh: discharge(from, P, Q, R), aged: discharge(from, P, Q * share, R * growth) };
}

function playPower(from: Design, P_ind: number): number {
  const value = valueIn(from);
  const I_q = value(`amplifier.${from.decision("decisions.battery.amplifier").chosen}.quiescent`);
  const I = Math.sqrt(value("listening.level") ** 2 / value("headphones.sensitivity") / value("headphones.impedance"));
  // noise without a limit to its peaks: a crest factor of 3 changes it by less than one part in a hundred of a twentieth
  const drawn = I_q + (Math.sqrt(2 / Math.PI) * I) / 2;
  const P_s = 2 * value("amplifier.channels") * value("rails.positive.voltage") * drawn;
  const mode = `converter.${from.decision("decisions.battery.converter").chosen}`;
  const eta = value(`${mode}.deviation`) * read(from, `${mode}.efficiency`, P_s);
  // a linear regulator takes the current that it hands on
  return P_s / eta + P_ind + meanVoltage(from) * value("control.play");
}

/** Mean of the open-circuit voltage over the state of charge, in a thousand steps. */
function meanVoltage(from: Design): number {
  const steps = 1000;
  const volts = Array.from({ length: steps }, (_, i) => read(from, "reference.cells.lithium-polymer", (i + 0.5) / steps));
  return volts.reduce((sum, V) => sum + V, 0) / steps;
}

/** What is left of the capacity at the end of the warranty, and by how much the resistance has grown. */
function age(from: Design): { readonly share: number; readonly growth: number } {
  const value = valueIn(from);
  const worn = value("battery.warranty.cycles") / value("battery.fade.cycles");
  const warmth = (value("battery.fade.activation") / 8.314462618) * (1 / value("battery.rated") - 1 / value("battery.storage"));
  const rested = Math.exp(warmth) * Math.sqrt(value("battery.warranty.time") / value("battery.fade.time"));
  const cycling = value("battery.fade.cycling") * worn ** value("battery.fade.exponent");
  return { share: 1 - cycling - value("battery.fade.calendar") * rested, growth: 1 + value("battery.fade.growth") * worn };
}

/** Seconds until the terminals of a cell of Q coulombs behind R ohms, loaded with P watts, reach the cut-off. */
function discharge(from: Design, P: number, Q: number, R: number): number {
  const V_c = valueIn(from)("battery.cut-off");
  let s = valueIn(from)("battery.full");
  for (let t = 0; ; t++) {
    const V = read(from, "reference.cells.lithium-polymer", s);
    let I = P / V;
    for (let again = 0; again < 8; again++) I = P / (V - I * R);
    if (V - I * R <= V_c || s <= 0) return t;
    s -= I / Q;
  }
}

function valueIn(from: Design): (path: string) => number {
  return (path) => {
    const given = from.given(path);
    if (given.kind !== "given") throw new Error(`${path} is a table`);
    return given.nominal;
  };
}

/** A table read on the straight line between its rows. */
function read(from: Design, path: string, at: number): number {
  const table = from.given(path);
  if (table.kind !== "table") throw new Error(`${path} is no table`);
  const i = Math.max(
    1,
    table.x.findIndex((x) => x >= at),
  );
  const [x0, x1, y0, y1] = [table.x[i - 1], table.x[i], table.y[i - 1], table.y[i]] as [number, number, number, number];
  return y0 + ((y1 - y0) * (at - x0)) / (x1 - x0);
}
