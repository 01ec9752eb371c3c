/** Wear, ageing, yield and what they cost: `import { lifetime } from "workings/physics"`. A cell's fading is battery's. */
export { ageingSpeed, calendarLoss, cycleLoss, cyclesInUse, retention } from "../battery/ageing-laws";
export { fadeCurve, faultyUnits, timeToRetention, unitsToStart } from "./models";
export {
  accelerationFactor,
  agedCapacitance,
  ceramicAge,
  ceramicAgeing,
  electrolyticLife,
  halvingEnergy,
  lifeOfTwo,
  matings,
  matingWear,
  matingYears,
  retentionTime,
  rippleHeating,
  warrantyMargin,
  wornContact,
} from "./part-laws";
export {
  binomialYield,
  escapes,
  faultsOfYield,
  faultsPerUnit,
  goodUnitCost,
  goodUnitCostBySteps,
  mendedUnitCost,
  mendedYield,
  poissonYield,
  throughYield,
  withTooling,
} from "./yield-laws";
