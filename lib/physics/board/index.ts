/** Copper, planes, lines and emission of boards: `import { board } from "workings/physics"`. */

export { cableCurrent, cableField, edgeCorner, loopField, pulseCorner, stitchingPitch, wavelength } from "../rf/laws";
export {
  backwardCrosstalk,
  couplingRule,
  lowFrequencyCrosstalk,
  mutualTraceCapacitance,
  mutualTraceInductance,
  shortBackwardCrosstalk,
} from "./coupling-laws";
export {
  coupledCurrent,
  emissionMargin,
  fieldAtDistance,
  harmonicBound,
  resonantCableCurrent,
  resonantCableField,
  shortCableField,
} from "./emission-laws";
export {
  criticalLength,
  effectivePermittivity,
  lineCapacitance,
  lineDelay,
  lineInductance,
  ruleMicrostripImpedance,
  ruleStriplineImpedance,
} from "./line-laws";
export {
  leadEmission,
  leadEmissionCurve,
  microstrip,
  microstripWidth,
  planeCoupling,
  planeResistance,
  stripline,
  textbookMicrostripWidth,
} from "./models";
export {
  cavityResonance,
  planeCapacitance,
  planeInductance,
  returnShare,
  sharedReturnRatio,
  spreadingInductance,
  spreadingResistance,
} from "./plane-laws";
export {
  copperThickness,
  externalTraceArea,
  externalTraceCurrent,
  externalTraceRise,
  internalTraceArea,
  internalTraceCurrent,
  internalTraceRise,
  parallelVias,
  resistiveCorner,
  sheetResistance,
  skinDepth,
  traceArea,
  traceDrop,
  traceInductance,
  traceResistance,
  traceWidth,
  viaInductance,
  viaPairInductance,
  viaResistance,
  viaThermalResistance,
} from "./trace-laws";
