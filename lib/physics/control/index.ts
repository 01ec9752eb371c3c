/** Power states, storage on the shelf, thresholds of indicators: `import { control } from "workings/physics"`. */
export { type CellFinding, examineStates, type StateReport } from "./examine";
export {
  allowedOffCurrent,
  chargeAfterStorage,
  dividerDrain,
  hysteresisMargin,
  meanCurrent,
  restShare,
  shelfLife,
  shelfLifeByShare,
  shippingCharge,
} from "./laws";
export { type Branch, type Cell, type StateTable, stateTable, type Transition, transitionsOf } from "./states";
export {
  biasShift,
  fallingThreshold,
  hysteresisResistor,
  lowerResistor,
  plainThreshold,
  risingThreshold,
  thresholdHysteresis,
} from "./threshold-laws";
export { meanOfStates, nextState, type Step, timeShares, type Visit, walkStates } from "./walk";
