/** The folder of the project. */
import { join, resolve } from "node:path";

export const root = resolve(__dirname, "..");

/** For what tests make under the project, so that cells find its packages: there from the start, removed when all tests have ended. */
export const testFolder = process.env.WORKINGS_TEST_FOLDER ?? join(root, "build/test");
