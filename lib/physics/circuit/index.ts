/** Circuits as data, in time and as netlists: `import { circuit } from "workings/physics"`. */
export * from "./data";
export * from "./spice-netlist";
export { type TransientOptions, transient } from "./transient";
export { type CircuitWaves, type Peak, peakOf } from "./waves";
