/** Copper, planes, lines and emission of boards: `import { board } from "workings/physics"`. */

export { cableCurrent, cableField, edgeCorner, loopField, pulseCorner, stitchingPitch, wavelength } from "../rf/laws";
export * from "./coupling-laws";
export * from "./emission-laws";
export * from "./line-laws";
export * from "./models";
export * from "./plane-laws";
export * from "./trace-laws";
