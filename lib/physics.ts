/** Formulas and models by subject: `import { light } from "workings/physics"`, then `light.operatingPoint`. */
export * as battery from "./physics/battery";
export * as charging from "./physics/charging";
export * as circuit from "./physics/circuit";
export * as enclosure from "./physics/enclosure";
export * as esd from "./physics/esd";
export * as light from "./physics/light";
export * as rails from "./physics/rails";
export * as rf from "./physics/rf";
