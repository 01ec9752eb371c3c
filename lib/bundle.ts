/** The one bundle behind every subpath: `workings`, `workings/units` and `workings/physics` share its modules. */
export * as index from "./index";
export * as physics from "./physics";
export * as units from "./units";
