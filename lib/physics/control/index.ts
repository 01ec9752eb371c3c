/** Power states, storage on the shelf, thresholds of indicators: `import { control } from "workings/physics"`. */
export * from "../../design/examine-states";
export { type Branch, type Cell, type StateTable, stateTable, type Transition, transitionsOf } from "../../design/power-states";
export * from "./laws";
export * from "./threshold-laws";
export * from "./walk";
