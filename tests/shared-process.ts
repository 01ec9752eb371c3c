/**
 * What modules shared by test files leave to the hooks of every file (`setup.ts` calls them). Files of one process load a module
 * once, so a hook that a module declares itself would be that of the first file alone.
 */
type Hook = () => void | Promise<void>;

export const hooks: Readonly<Record<"beforeTest" | "afterTest" | "afterFile", Hook[]>> = { beforeTest: [], afterTest: [], afterFile: [] };
