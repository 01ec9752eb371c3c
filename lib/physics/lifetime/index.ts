/** Wear, ageing, yield and what they cost: `import { lifetime } from "workings/physics"`. A cell's fading is battery's. */
export { ageingSpeed, calendarLoss, cycleLoss, cyclesInUse, retention } from "../battery/ageing-laws";
export * from "./models";
export * from "./part-laws";
export * from "./yield-laws";
