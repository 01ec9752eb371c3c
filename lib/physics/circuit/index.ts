/** Circuits as data, in time and as netlists: `import { circuit } from "workings/physics"`. */
export {
  type Capacitor,
  type Circuit,
  type CircuitElement,
  type Coupling,
  checkCircuit,
  type Diode,
  ground,
  type Inductor,
  nodesOf,
  type PulseWave,
  type Resistor,
  type Source,
  wire,
} from "./data";
export { type FrequencySweep, type NetlistOptions, netlist, type TimeRun } from "./spice-netlist";
export { type TransientOptions, transient } from "./transient";
export { type CircuitWaves, type Peak, peakOf } from "./waves";
