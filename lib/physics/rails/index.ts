/** Switching converters, what stands on their rails and what is left of their ripple: `import { rails } from "workings/physics"`. */

export { antiResonance, selfResonance } from "../rf/laws";
export * from "./burst-laws";
export * from "./converter-laws";
export * from "./converter-models";
export { type PostFilter, postFilterChain, postFilterEnds } from "./filter";
export * from "./network-laws";
export * from "./network-models";
export * from "./pulse-models";
