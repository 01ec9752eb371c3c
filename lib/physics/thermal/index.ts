/**
 * Heat and how it leaves: `import { thermal } from "workings/physics"`. Hot surfaces hurt: whether one may be touched is for
 * the standards (IEC 62368-1, ISO 13732-1) and those licensed to judge by them.
 */
export * from "./laws";
export * from "./models";
