/** Sources, chargers and the charge of a cell: `import { charging } from "workings/physics"`. Its discharge and age are `battery`'s. */
export { linearChargerLoss, switchingChargeCurrent } from "../battery/laws";
export { linearChargeTime } from "../battery/models";
export * from "./laws";
export * from "./models";
