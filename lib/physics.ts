/** Formulas and models by subject: `import { light } from "workings/physics"`, then `light.operatingPoint`. */
export * as light from "./physics/light";
