/** The cells of sheets made ready to run without tslab: checked together by the native compiler, compiled one by one. */
import { codeCells, isBlank, type Notebook } from "../notebook";
import type { Failure, JobCell } from "../protocol";
import { type SheetModules, sheetModules } from "./cell-modules";
import { checkModules } from "./check";
import { compileModules } from "./compile";

export class NativeCells {
  #problem: string | undefined;
  /** By the text of the cells: what `check` has parsed, `prepare` finds. */
  readonly #parsed = new Map<string, SheetModules | undefined>();

  /** Why cells could not be checked so, where that is: tslab has run them instead. */
  get problem(): string | undefined {
    return this.#problem;
  }

  /**
   * `compiler`: path of its program; `folder`: where cells are checked and verdicts are kept (build/cells); `library`: a hash of the
   * declarations that cells are checked against.
   */
  constructor(
    private readonly compiler: string,
    private readonly folder: string,
    private readonly library: string,
  ) {}

  /** Checks all these notebooks in one call of the compiler: `prepare` then finds the verdicts. */
  async check(notebooks: readonly Notebook[]): Promise<void> {
    const sheets = notebooks.flatMap((notebook) => this.modulesOf(jobCells(notebook)) ?? []);
    await this.verdicts(sheets);
  }

  /**
   * The cells as they are to run: compiled, or with what is wrong at the first that cannot run. Undefined where they need tslab, or the
   * compiler cannot be started.
   */
  async prepare(cells: readonly JobCell[]): Promise<JobCell[] | undefined> {
    const sheet = this.modulesOf(cells);
    if (sheet === undefined) return undefined;
    const [verdict] = await this.verdicts([sheet]);
    if (verdict === undefined) return undefined;
    const { obstacle } = sheet;
    const fault: Failure | null = verdict ?? (obstacle === undefined ? null : { kind: "compile", ...obstacle });
    const end = fault?.cell ?? Number.POSITIVE_INFINITY;
    const compiled = compileModules(sheet.modules.filter(({ cell }) => cell < end));
    return cells.flatMap((cell): JobCell[] => {
      const own = compiled.get(cell.cell);
      if (own !== undefined) return [{ ...cell, compiled: own }];
      return fault !== null && cell.cell === end ? [{ ...cell, fault }] : [];
    });
  }

  private modulesOf(cells: readonly JobCell[]): SheetModules | undefined {
    const text = JSON.stringify(cells);
    if (!this.#parsed.has(text)) this.#parsed.set(text, sheetModules(cells));
    return this.#parsed.get(text);
  }

  /** Empty where the compiler could not do its work. */
  private async verdicts(sheets: readonly SheetModules[]): Promise<(Failure | null)[]> {
    const named = sheets.map(({ modules }, index) => ({ name: String(index), modules }));
    try {
      const checked = await checkModules(named, this.folder, this.compiler, this.library);
      return named.map(({ name }) => checked.get(name) ?? null);
    } catch (error) {
      this.#problem ??= (error as Error).message;
      return [];
    }
  }
}

/** The cells that a kernel executes: Jupyter passes over blank ones. */
export function jobCells(notebook: Notebook): JobCell[] {
  return codeCells(notebook).flatMap((cell, index) => (isBlank(cell) ? [] : [{ cell: index + 1, id: cell.id, source: cell.source }]));
}
