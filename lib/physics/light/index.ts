/** Light and indicators: `import { light } from "workings/physics"`. */
export { matchProbability, warmIndicator } from "./indicator-models";
export {
  acceptanceAngle,
  acceptedShare,
  coneFlux,
  coneIntensity,
  coneSolidAngle,
  currentByPowerLaw,
  illuminance,
  intensityByPowerLaw,
  lambertianFlux,
  monochromaticFlux,
  pulsedAverage,
  pulsedPower,
  pulsedRms,
  resistorCurrent,
  resistorPower,
  seriesResistor,
} from "./laws";
export { binMatch, binRatio, ledJunction } from "./match-laws";
export {
  currentForIntensity,
  forwardOffset,
  forwardVoltage,
  intensity,
  ledEfficacy,
  operatingPoint,
  shockleyOperatingPoint,
  spectralEfficacy,
} from "./models";
