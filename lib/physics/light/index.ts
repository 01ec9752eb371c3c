/** Light and indicators: `import { light } from "workings/physics"`. */
export { matchProbability, warmIndicator } from "./indicator-models";
export * from "./laws";
export * from "./match-laws";
export * from "./models";
