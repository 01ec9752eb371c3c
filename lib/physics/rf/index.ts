/** Filters at radio frequencies, fields and rectified bursts: `import { rf } from "workings/physics"`. */
export { type BeadFit, fitBead } from "./bead-fit";
export { burstResidue, burstShare, burstTone, frameRate, rejectedOffset, squareLawOffset } from "./burst-laws";
export { type Choke, type ChokeFilter, chokeCircuit, type Mode, modeChain, windingOf } from "./choke";
export { chainCircuit, type Ends, type FilterParts, filterChain, insertionLossAt } from "./filter";
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
} from "./laws";
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
} from "./models";
export type { CapacitorPart, CoilPart, Part, ResistorPart, TablePart } from "./parts";
export { cascade, chainTwoPort, type Scattering, type Section, scattering, seriesTwoPort, shuntTwoPort, type TwoPort } from "./two-port";
