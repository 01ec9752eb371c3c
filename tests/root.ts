/** The folder of the project. */
import { resolve } from "node:path";

export const root = resolve(__dirname, "..");
