/** A cell's module as the script that runs: CommonJS, its last expression handed over, its places kept. */
import { loadTypeScript, type TypeScript } from "../cell-parser";
import type { CompiledCell } from "../protocol";
import type { CellModule } from "./cell-modules";

/** Under this name a cell exports the value of its last expression. */
export const lastExpression = "tsLastExpr";

export function compileModule({ text, isAsync }: CellModule): CompiledCell {
  const ts = loadTypeScript();
  const { outputText, sourceMapText } = ts.transpileModule(text, {
    fileName: "cell.ts",
    compilerOptions: {
      module: ts.ModuleKind.CommonJS,
      target: ts.ScriptTarget.ES2022,
      esModuleInterop: true,
      experimentalDecorators: true,
      jsx: ts.JsxEmit.React,
      newLine: ts.NewLineKind.LineFeed,
      // As tslab runs cells.
      noImplicitUseStrict: true,
      sourceMap: true,
    },
    transformers: { before: [handOver(ts)] },
  });
  return { code: outputText.replace(/^\/\/# sourceMappingURL=.*$/m, "").trimEnd(), map: sourceMapText ?? "", isAsync };
}

/** The last statement, where it is an expression, becomes an export. */
function handOver(ts: typeof TypeScript): TypeScript.TransformerFactory<TypeScript.SourceFile> {
  return () => (file) => {
    const { factory } = ts;
    const at = file.statements.findLastIndex((statement) => !ts.isExportDeclaration(statement));
    const last = file.statements[at];
    if (last === undefined || !ts.isExpressionStatement(last)) return file;
    const target = factory.createPropertyAccessExpression(factory.createIdentifier("exports"), lastExpression);
    const handed = factory.createExpressionStatement(factory.createAssignment(target, last.expression));
    ts.setTextRange(handed, last);
    return factory.updateSourceFile(file, [...file.statements.slice(0, at), handed, ...file.statements.slice(at + 1)]);
  };
}
