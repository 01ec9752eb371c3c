/** Electrostatic discharge into a connector: `import { esd } from "workings/physics"`. */
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
export { bodyDischarge, contactDischarge, levels, pulse, pulseCurrent } from "./models";
export { bodyCircuit, bodyStrike, type ChargedBody, dischargeCircuit, type Protection, type Strike, strike } from "./protection";
export { contactLevels, dischargeWave } from "./waveform";
