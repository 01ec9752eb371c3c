/** Power states, storage on the shelf, thresholds of indicators: `import { control } from "workings/physics"`. */
export * from "./examine";
export * from "./laws";
export { type Branch, type Cell, type StateTable, stateTable, type Transition, transitionsOf } from "./states";
export * from "./threshold-laws";
export * from "./walk";
