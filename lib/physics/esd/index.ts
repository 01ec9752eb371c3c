/** Electrostatic discharge into a connector: `import { esd } from "workings/physics"`. */
export { creepageDistance, relativeAirDensity, uniformBreakdown, uniformGap } from "./gap-laws";
export {
  bodyPeak,
  bodyTime,
  currentAt30ns,
  currentAt60ns,
  deratedPin,
  edgeSlope,
  firstPeak,
  pinMargin,
  residualVoltage,
  settledPinCurrent,
  sharedVoltage,
  storedCharge,
  storedEnergy,
  stubVoltage,
} from "./laws";
export { bodyDischarge, contactDischarge, leastClearance, levels, pulse, pulseCurrent } from "./models";
export { bodyCircuit, bodyStrike, type ChargedBody, dischargeCircuit, type Protection, type Strike, strike } from "./protection";
export { contactLevels, dischargeWave } from "./waveform";
