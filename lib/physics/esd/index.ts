/** Electrostatic discharge into a connector: `import { esd } from "workings/physics"`. */
export * from "./gap-laws";
export * from "./laws";
export * from "./models";
export * from "./protection";
export { contactLevels, dischargeWave } from "./waveform";
