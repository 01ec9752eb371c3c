/** Requirements that wait for a sheet that does not stand. */
import type { Worksheet } from "../book/book-file";
import { codeCells, readNotebook } from "../kernel/notebook";
import { WorkingsError } from "../quantity/error";
import { storedDisplays } from "../sheet/stored";

export interface Waiting {
  readonly sheet: string;
  mayAnswer(requirement: string): boolean;
  /** Why its outputs cannot be read, where they cannot. */
  readonly fault?: string;
}

/** What a sheet that does not stand answers: by its outputs, which are used for nothing else, and by its cells, which may say more. */
export function waitingFor({ name, path }: Worksheet): Waiting {
  const notebook = readNotebook(path);
  const requiring = codeCells(notebook).filter(({ source }) => /\brequire\s*\(/.test(source));
  const isNamed = (id: string) => requiring.some(({ source }) => ['"', "'", "`"].some((quote) => source.includes(quote + id + quote)));
  try {
    const blocks = storedDisplays(notebook, name).map(({ display }) => display.block);
    return {
      sheet: name,
      mayAnswer: (id) => isNamed(id) || blocks.some((block) => block.type === "requirement" && block.requirement === id),
    };
  } catch (error) {
    if (error instanceof WorkingsError) return { sheet: name, mayAnswer: isNamed, fault: error.message };
    throw error;
  }
}
