/**
 * tslab turns a name of an earlier cell into `exports.name`, but leaves the short form `{ name }` of an object as it is,
 * and the name is then unknown when the cell runs. This transformer writes the long form before tslab sees it.
 */
import type * as TypeScript from "@tslab/typescript-for-tslab";

/** The declarations of earlier cells, as tslab hands them to the compiler. */
const isOfEarlierCells = (declaration: TypeScript.Node) => declaration.getSourceFile().fileName.endsWith("/__prev__.d.ts");

/** Makes a program emit the long form in cells. */
export function mendShorthand(ts: typeof TypeScript, program: TypeScript.BuilderProgram): void {
  const emit = program.emit.bind(program);
  program.emit = (file, write, cancellation, onlyDeclarations, transformers) => {
    const mend = longForms(ts, program.getProgram().getTypeChecker());
    return emit(file, write, cancellation, onlyDeclarations, { ...transformers, before: [mend, ...(transformers?.before ?? [])] });
  };
}

function longForms(ts: typeof TypeScript, checker: TypeScript.TypeChecker): TypeScript.TransformerFactory<TypeScript.SourceFile> {
  return (context) => {
    const { factory } = context;
    const visit = (node: TypeScript.Node): TypeScript.Node => {
      if (!ts.isShorthandPropertyAssignment(node) || !isEarlier(node)) return ts.visitEachChild(node, visit, context);
      const name = node.name.text;
      const earlier = factory.createPropertyAccessExpression(factory.createIdentifier("exports"), name);
      // `({ a = 1 } = b)`: an assignment to a name of an earlier cell, with a default.
      const initial = node.objectAssignmentInitializer;
      return factory.createPropertyAssignment(
        name,
        initial === undefined ? earlier : factory.createAssignment(earlier, ts.visitNode(initial, visit) as TypeScript.Expression),
      );
    };
    const isEarlier = (node: TypeScript.ShorthandPropertyAssignment) =>
      checker.getShorthandAssignmentValueSymbol(node)?.declarations?.some(isOfEarlierCells) === true;
    return (file) => ts.visitEachChild(file, visit, context);
  };
}
