/** Where the parts of the light-pipe drawing stand, in px, for sizes in metres. */
import { formatNumber } from "../../quantity/format";
import { deg, mm } from "../../units";
import { outsideReach } from "./dimension-line";
import { textWidth } from "./svg";

/** m: length and diameter of the pipe, wall of the case, gap from the emitting face to the pipe; rad: full viewing angle. */
export interface Sizes {
  readonly length: number;
  readonly diameter: number;
  readonly wall: number;
  readonly gap: number;
  readonly viewing: number;
}

/** m: drawn for orientation. */
const boardThickness = 1e-3;
const diodeHeight = 0.6e-3;
const diodeWidth = 1.6e-3;

/** px: the drawing's width and margin, the radius of the viewing cone, the eye, the rows of dimensions. */
export const width = 660;
export const margin = 16;
export const coneRadius = 64;
export const eyeWidth = 30;
export const row = 24;
/** px per metre, so that a short pipe is not blown up; px for the diameter. */
const most = 60e3;
const mostDiameter = 120;

/** Positions in px: `x` along the light's way, `y` of the axis. */
export interface Layout {
  readonly scale: number;
  readonly halfHeight: number;
  readonly axis: number;
  readonly board: number;
  readonly diode: number;
  readonly emitter: number;
  readonly entrance: number;
  readonly wall: number;
  readonly exit: number;
  /** Half of the pipe's diameter and of the LED's width. */
  readonly radius: number;
  readonly diodeHalf: number;
  /** Left corner of the eye. */
  readonly eye: number;
  /** rad: full angles of the cones at the entrance and at the exit. */
  readonly acceptance: number;
  readonly viewing: number;
}

export const metres = (x: number): string => formatNumber(x, mm, 3);
export const degrees = (angle: number): string => formatNumber(angle, deg, 3);

/** The largest scale at which pipe, LED and the labels beside them fit, centred. */
export function layout({ length, diameter, wall, gap, viewing }: Sizes): Layout {
  const extent = boardThickness + diodeHeight + gap + length;
  const right = coneRadius + textWidth(degrees(viewing)) + eyeWidth + 40;
  const room = width - right - outsideReach(metres(gap)) - margin;
  const scale = Math.min(room / extent, mostDiameter / diameter, most);
  const radius = (diameter * scale) / 2;
  const halfHeight = Math.max(radius + 32, coneRadius + 16);
  const body = (boardThickness + diodeHeight) * scale;
  const left = Math.max(margin, margin + outsideReach(metres(gap)) - body);
  const board = Math.max(left, (width - right - extent * scale) / 2);
  const emitter = board + body;
  const entrance = emitter + gap * scale;
  const exit = entrance + length * scale;
  return {
    scale,
    halfHeight,
    axis: 3 * row + 18 + halfHeight,
    board,
    diode: board + boardThickness * scale,
    emitter,
    entrance,
    wall: exit - wall * scale,
    exit,
    radius,
    diodeHalf: (diodeWidth * scale) / 2,
    eye: exit + coneRadius + 22 + textWidth(degrees(viewing)),
    acceptance: 2 * Math.atan2(diameter / 2, gap),
    viewing,
  };
}
