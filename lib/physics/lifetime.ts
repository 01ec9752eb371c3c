/** Wear, ageing, yield and what they cost: `import { lifetime } from "workings/physics"`. A cell's fading is battery's. */
export { ageingSpeed, calendarLoss, cycleLoss, cyclesInUse, retention } from "./battery-ageing-laws";
export { fadeCurve, faultyUnits, timeToRetention, unitsToStart } from "./lifetime-models";
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
} from "./lifetime-part-laws";
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
} from "./lifetime-yield-laws";
