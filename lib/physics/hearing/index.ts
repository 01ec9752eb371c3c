/**
 * Sound level, dose and listening time: `import { hearing } from "workings/physics"`. Loud sound takes hearing away for good:
 * WHO-ITU H.870 and IEC 62368-1 clause 10.6 decide what a product limits and says; advice to persons is for physicians and
 * audiologists.
 */
export { pressureAtPower, sensitivityPerVolt, voltageForPressure } from "../audio/level-laws";
export * from "./laws";
export { allowanceCurve, listeningTimes } from "./models";
