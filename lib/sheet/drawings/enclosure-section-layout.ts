/** Where the parts of the section through an enclosure stand, in px, for sizes in metres. */
import { formatNumber } from "../../quantity/format";
import { mm } from "../../units";
import { outsideReach } from "./dimension-line";
import { textWidth } from "./svg";

/** m, all of them. */
export interface Sizes {
  /** Outer width and height of the closed case, outer radius of its edges, its wall, outer height of the lower half. */
  readonly width: number;
  readonly height: number;
  readonly radius: number;
  readonly wall: number;
  readonly lower: number;
  /** The stack from below: parts under the board, the board, the new cell, its growth. */
  readonly parts: number;
  readonly board: number;
  readonly cell: number;
  readonly growth: number;
  readonly boardWidth: number;
  readonly cellWidth: number;
  /** How far the upper wall yields in its middle. */
  readonly deflection: number;
}

/** px: the drawing's width and margin, the row of dimensions, the arrow of the force. */
export const width = 660;
export const margin = 16;
export const row = 24;
export const arrowLength = 30;
/** px per metre, and px for the height, so that a small or a tall case is not blown up. */
const most = 60e3;
const mostHeight = 260;
/** px from the case to the dimension of its height. */
export const heightGap = 26;

/** A rectangle in px. */
export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Positions in px; y grows downwards. */
export interface Layout {
  readonly scale: number;
  readonly outer: Rectangle;
  readonly inner: Rectangle;
  readonly radius: number;
  readonly innerRadius: number;
  /** Of the parting line. */
  readonly parting: number;
  readonly parts: Rectangle;
  readonly board: Rectangle;
  readonly cell: Rectangle;
  readonly growth: Rectangle;
  readonly sag: number;
  readonly middle: number;
}

export const metres = (x: number): string => formatNumber(x, mm, 3);

/** m: what is left between the swollen cell and the wall as it yields; negative where the wall touches. */
export function leftOver({ height, wall, parts, board, cell, growth, deflection }: Sizes): number {
  return height - 2 * wall - parts - board - cell - growth - deflection;
}

/** The largest scale at which the case fits beside its dimensions. */
export function layout(sizes: Sizes): Layout {
  const left = margin + outsideReach(metres(sizes.wall));
  const right = heightGap + 12 + textWidth(metres(sizes.height)) + margin;
  const scale = Math.min((width - left - right) / sizes.width, mostHeight / sizes.height, most);
  const px = (length: number): number => length * scale;
  const x = left + (width - left - right - px(sizes.width)) / 2;
  const outer = { x, y: 3 * row + 22, width: px(sizes.width), height: px(sizes.height) };
  const inner = inset(outer, px(sizes.wall));
  const floor = inner.y + inner.height;
  const middle = outer.x + outer.width / 2;
  const at = (bottom: number, height: number, wide: number): Rectangle => ({
    x: middle - px(wide) / 2,
    y: floor - px(bottom + height),
    width: px(wide),
    height: px(height),
  });
  return {
    scale,
    outer,
    inner,
    radius: px(sizes.radius),
    innerRadius: px(Math.max(sizes.radius - sizes.wall, 0)),
    parting: outer.y + outer.height - px(sizes.lower),
    parts: at(0, sizes.parts, sizes.boardWidth),
    board: at(sizes.parts, sizes.board, sizes.boardWidth),
    cell: at(sizes.parts + sizes.board, sizes.cell, sizes.cellWidth),
    growth: at(sizes.parts + sizes.board + sizes.cell, sizes.growth, sizes.cellWidth),
    sag: px(sizes.deflection),
    middle,
  };
}

function inset({ x, y, width: wide, height }: Rectangle, by: number): Rectangle {
  return { x: x + by, y: y + by, width: wide - 2 * by, height: height - 2 * by };
}
