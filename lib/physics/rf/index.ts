/** Filters at radio frequencies, fields and rectified bursts: `import { rf } from "workings/physics"`. */
export { type BeadFit, fitBead } from "./bead-fit";
export * from "./burst-laws";
export * from "./choke";
export { chainCircuit, type Ends, type FilterParts, filterChain, insertionLossAt } from "./filter";
export * from "./laws";
export * from "./models";
export type { CapacitorPart, CoilPart, Part, ResistorPart, TablePart } from "./parts";
export { cascade, chainTwoPort, type Scattering, type Section, scattering, seriesTwoPort, shuntTwoPort, type TwoPort } from "./two-port";
