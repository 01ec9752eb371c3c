/** What outputs say of laws that are used outside the range in which they hold. */
import type { Display } from "../sheet/block";

/** Each law once, as `R = V/I: V is 5 V in the worst case; the law holds up to 4 V`. */
export function lawsOutside(displays: readonly Display[]): string[] {
  const said = displays.flatMap(({ analyses, verdicts = [] }) => [...analyses, ...verdicts].flatMap(({ outside = [] }) => outside));
  return [...new Set(said)];
}
