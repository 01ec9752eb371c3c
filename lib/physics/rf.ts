/** Filters at radio frequencies, fields and rectified bursts: `import { rf } from "workings/physics"`. */
export { type BeadFit, fitBead } from "./rf-bead-fit";
export { burstResidue, burstShare, burstTone, frameRate, rejectedOffset, squareLawOffset } from "./rf-burst-laws";
export { type Choke, type ChokeFilter, chokeCircuit, type Mode, modeChain, windingOf } from "./rf-choke";
export { chainCircuit, type Ends, type FilterParts, filterChain, insertionLossAt } from "./rf-filter";
export {
  antiResonance,
  cableCurrent,
  cableField,
  capacitiveCorner,
  commonInductance,
  differentialInductance,
  edgeCorner,
  filteredVoltage,
  leadVoltage,
  loopField,
  pulseCorner,
  selfResonance,
  stitchingPitch,
  transmitterField,
  wavelength,
} from "./rf-laws";
export {
  beadFit,
  capacitorImpedance,
  chokeLoss,
  coilImpedance,
  filterCorner,
  insertionLoss,
  insertionLossCurve,
  leastInsertionLoss,
  scatteringParameters,
  tableInsertionLoss,
} from "./rf-models";
export type { CapacitorPart, CoilPart, Part, ResistorPart, TablePart } from "./rf-parts";
export { cascade, chainTwoPort, type Scattering, type Section, scattering, seriesTwoPort, shuntTwoPort, type TwoPort } from "./rf-two-port";
