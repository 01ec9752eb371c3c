/** Formulas and models by subject: `import { light } from "workings/physics"`, then `light.operatingPoint`. */
export * as battery from "./physics/battery";
export * as enclosure from "./physics/enclosure";
export * as light from "./physics/light";
