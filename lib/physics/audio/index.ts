/** Audio amplifiers: output, gain, noise, response and leakage: `import { audio } from "workings/physics"`. */
export * from "./gain-laws";
export * from "./level-laws";
export { outputLimitNames } from "./limits";
export * from "./noise-laws";
export * from "./noise-models";
export * from "./offset-laws";
export * from "./output-laws";
export * from "./output-models";
export * from "./response-models";
export * from "./tracking-laws";
