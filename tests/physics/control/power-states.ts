/** A table of power states for tests, and a source of random numbers that always gives the same ones. */
import { control } from "../../../lib/physics";

/** Plain data, as it would come out of a YAML file. */
export const pocketAmplifier = {
  start: "off",
  off: "off",
  events: {
    press: "the button is pressed",
    plug: "a charger is plugged in",
    unplug: "the charger is pulled out",
    silence: "ten minutes without sound",
    empty: "the cell falls to its cut-off",
    hot: "a temperature leaves its window",
  },
  next: {
    off: {
      press: [{ if: "cell above 3.3 V", to: "play" }, { to: "stay" }],
      plug: "charge",
      unplug: "impossible",
      silence: "impossible",
      empty: "cut off",
      hot: "stay",
    },
    play: { press: "off", plug: "charge and play", unplug: "impossible", silence: "off", empty: "cut off", hot: "off" },
    charge: { press: "charge and play", plug: "impossible", unplug: "off", silence: "impossible", empty: "impossible", hot: "wait" },
    "charge and play": { press: "charge", plug: "impossible", unplug: "play", silence: "charge", empty: "impossible", hot: "wait" },
    wait: { press: "stay", plug: "impossible", unplug: "off", silence: "impossible", empty: "impossible", hot: "stay" },
    "cut off": { press: "stay", plug: "charge", unplug: "impossible", silence: "impossible", empty: "stay", hot: "stay" },
  },
} as const;

export const amplifierTable = (): control.StateTable => control.stateTable(pocketAmplifier);

/** Evenly spread over [0, 1), from a seed: a 32-bit mixing generator. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return ((z ^ (z >>> 15)) >>> 0) / 2 ** 32;
  };
}

/** Standard normal, by Box and Muller. */
export function normalFrom(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
