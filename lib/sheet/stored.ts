/** What a notebook's cells have shown, in order: our own JSON among the outputs that its file holds. */
import { type Display, displayType } from "./block";

/** A notebook as parsed JSON; only what is read here. */
interface StoredNotebook {
  readonly cells?: readonly {
    readonly outputs?: readonly { readonly output_type?: string; readonly data?: Readonly<Record<string, unknown>> }[];
  }[];
}

/** Outputs of another version or shape are passed over: they are another program's. */
export function storedDisplays(notebook: StoredNotebook): Display[] {
  return (notebook.cells ?? []).flatMap(({ outputs = [] }) =>
    outputs.flatMap(({ output_type, data }) => {
      const shown = output_type === "display_data" ? data?.[displayType] : undefined;
      return isDisplay(shown) ? [shown] : [];
    }),
  );
}

function isDisplay(value: unknown): value is Display {
  if (typeof value !== "object" || value === null) return false;
  const { version, block, nodes, analyses } = value as Partial<Record<keyof Display, unknown>>;
  return version === 1 && typeof block === "object" && block !== null && Array.isArray(nodes) && Array.isArray(analyses);
}
