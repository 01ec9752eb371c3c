/** What the cells of a notebook have shown. */
import type { Notebook } from "../kernel/notebook";
import type { Display } from "../sheet/block";
import { storedDisplays } from "../sheet/stored";

export function displaysOf(notebook: Notebook): Display[] {
  return storedDisplays(notebook as Parameters<typeof storedDisplays>[0]);
}
