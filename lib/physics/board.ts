/** Copper, planes, lines and emission of boards: `import { board } from "workings/physics"`. */
export {
  coupledCurrent,
  emissionMargin,
  fieldAtDistance,
  harmonicBound,
  resonantCableCurrent,
  resonantCableField,
  shortCableField,
} from "./board-emission-laws";
export {
  criticalLength,
  effectivePermittivity,
  lineCapacitance,
  lineDelay,
  lineInductance,
  ruleMicrostripImpedance,
  ruleStriplineImpedance,
} from "./board-line-laws";
export {
  leadEmission,
  leadEmissionCurve,
  microstrip,
  microstripWidth,
  planeCoupling,
  planeResistance,
  stripline,
  textbookMicrostripWidth,
} from "./board-models";
export {
  cavityResonance,
  planeCapacitance,
  planeInductance,
  returnShare,
  sharedReturnRatio,
  spreadingInductance,
  spreadingResistance,
} from "./board-plane-laws";
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
} from "./board-trace-laws";
export { cableCurrent, cableField, edgeCorner, loopField, pulseCorner, stitchingPitch, wavelength } from "./rf-laws";
