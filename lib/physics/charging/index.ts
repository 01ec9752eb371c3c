/** Sources, chargers and the charge of a cell: `import { charging } from "workings/physics"`. Its discharge and age are `battery`'s. */
export { linearChargerLoss, switchingChargeCurrent } from "../battery/laws";
export { linearChargeTime } from "../battery/models";
export {
  chargerHeadroom,
  coldMargin,
  dividerRatio,
  heatAllowance,
  hotMargin,
  jackVoltage,
  linearDemand,
  sharedCellCurrent,
  sourceLeft,
  supplementCurrent,
  switchingChargerLoss,
  switchingDemand,
  thermistorResistance,
  thermistorTemperature,
  warmedCell,
} from "./laws";
export {
  linearCharge,
  linearChargeCurves,
  switchingCharge,
  switchingChargeCurves,
  temperatureLimit,
  windowDivider,
  windowRatio,
  windowTemperature,
} from "./models";
