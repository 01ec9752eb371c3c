/** Formulas and models by subject: `import { light } from "workings/physics"`, then `light.operatingPoint`. */
export * as audio from "./physics/audio";
export * as battery from "./physics/battery";
export * as board from "./physics/board";
export * as charging from "./physics/charging";
export * as circuit from "./physics/circuit";
export * as control from "./physics/control";
export * as enclosure from "./physics/enclosure";
export * as esd from "./physics/esd";
export * as hearing from "./physics/hearing";
export * as lifetime from "./physics/lifetime";
export * as light from "./physics/light";
export * as rails from "./physics/rails";
export * as rf from "./physics/rf";
export * as thermal from "./physics/thermal";
