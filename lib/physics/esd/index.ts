/** Electrostatic discharge into a connector: `import { esd } from "workings/physics"`. */
export * from "./gap-laws";
export * from "./laws";
export * from "./loop-models";
export { bodyDischarge, contactDischarge, leastClearance, levels, pulse, pulseCurrent } from "./models";
export * from "./protection";
export { contactLevels, dischargeWave } from "./waveform";
