/** Cells, their loads and their age: `import { battery } from "workings/physics"`. */
export {
  agedResistance,
  ageingSpeed,
  calendarLoss,
  cycleLoss,
  cyclesInUse,
  retention,
  usableCapacity,
} from "./ageing-laws";
export {
  arrheniusResistance,
  brownOutMargin,
  cRate,
  currentAtRate,
  effectiveResistance,
  linearChargerLoss,
  maximumPower,
  pulseAverage,
  pulseRms,
  resistanceLoss,
  runtimeByEnergy,
  sag,
  storedEnergy,
  switchingChargeCurrent,
  terminalVoltage,
} from "./laws";
export {
  capacityAtTemperature,
  constantPowerLoad,
  converterInput,
  linearChargeTime,
  meanVoltage,
  openCircuitVoltage,
  rectifiedMean,
  resistanceAtTemperature,
  runtimeAtCurrent,
  runtimeAtPower,
  stateOfCharge,
} from "./models";
export { amplifierHeat, levelCurrent, levelPower, peakCurrent, railCurrent, railPower } from "./supply-laws";
