/** Shells, walls and drops: `import { enclosure } from "workings/physics"`. */
export * from "./creep-laws";
export * from "./drop-laws";
export * from "./edge-laws";
export * from "./material-laws";
export * from "./models";
export * from "./plate-laws";
export * from "./press-laws";
export * from "./rib-laws";
export * from "./shell-laws";
