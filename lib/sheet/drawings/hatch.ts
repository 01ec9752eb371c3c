/** Section hatching at 45° (ISO 128-3), as lines cut to a rectangle: no pattern element, so no id is needed. */
import { type Attributes, path, point } from "./svg";

/** px between hatch lines, along x. */
const pitch = 8;

/** Lines that rise to the right through the rectangle from (x, y), width by height, all px. */
export function hatch(x: number, y: number, width: number, height: number, attributes: Attributes): string {
  let lines = "";
  for (let start = pitch / 2; start < width + height; start += pitch) {
    const low = Math.max(0, start - height);
    const high = Math.min(start, width);
    lines += path([point(x + low, y + start - low), point(x + high, y + start - high)], false, attributes);
  }
  return lines;
}
