/** Cells, their loads and their age: `import { battery } from "workings/physics"`. */
export * from "./ageing-laws";
export * from "./laws";
export * from "./models";
export * from "./supply-laws";
