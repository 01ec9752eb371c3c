/**
 * When a cell is down to a share of its capacity: the losses of battery.cycleLoss and battery.calendarLoss, cycles coming
 * at an even pace, solved for the time. Both grow with time, so there is one root; it is found by halving.
 */
import { WorkingsError } from "../../quantity/error";
import { power } from "../../quantity/power";

/** How a cell fades: the symbols of battery.cyclesInUse, cycleLoss and calendarLoss, in SI. */
export interface Fade {
  /** Full cycles a second. */
  readonly f: number;
  readonly L_N: number;
  readonly N_0: number;
  readonly z: number;
  readonly L_t: number;
  readonly t_0: number;
  readonly x: number;
}

const century = 100 * 365.25 * 86400;
const halvings = 60;

/** Share of the capacity left after t s. */
export function shareLeft({ f, L_N, N_0, z, L_t, t_0, x }: Fade, t: number): number {
  return 1 - L_N * power((f * t) / N_0, z) - L_t * x * Math.sqrt(t / t_0);
}

/** s until the share k is left; 0 for k of 1 or more. Throws "nominal-domain" where it takes more than a hundred years. */
export function fadeTime(fade: Fade, k: number): number {
  if (k >= 1) return 0;
  if (!(shareLeft(fade, century) <= k)) {
    throw new WorkingsError(
      "nominal-domain",
      `with these losses a cell keeps more than ${Number((100 * k).toPrecision(4))} % for a hundred years; ask for a larger share, or look at the losses`,
    );
  }
  let [low, high] = [0, century];
  for (let i = 0; i < halvings; i++) {
    const middle = (low + high) / 2;
    if (shareLeft(fade, middle) > k) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
