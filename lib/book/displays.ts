/** What the cells of a notebook have shown, in order: our own JSON among the outputs that a file holds. */
import { codeCells, type Notebook } from "../kernel/notebook";
import { type Display, displayType } from "../sheet/block";

/** Outputs of another version or shape are passed over: they are another program's. */
export function displaysOf(notebook: Notebook): Display[] {
  return codeCells(notebook).flatMap(({ outputs }) =>
    outputs.flatMap((output) => {
      const shown: unknown = output.output_type === "display_data" ? output.data[displayType] : undefined;
      return isDisplay(shown) ? [shown] : [];
    }),
  );
}

function isDisplay(value: unknown): value is Display {
  if (typeof value !== "object" || value === null) return false;
  const { version, block, nodes, analyses } = value as Partial<Record<keyof Display, unknown>>;
  return version === 1 && typeof block === "object" && block !== null && Array.isArray(nodes) && Array.isArray(analyses);
}
