import ts from "typescript";

export interface ImportsAndGlobals {
  /** Every module named: static, for the side effect, dynamic, re-exported, in a type, by require. */
  readonly modules: readonly string[];
  /** Dynamic imports whose module is computed, so that nobody can tell which it is. */
  readonly computed: number;
  /** Names that are used without being a property or a key, `Math.random` among them. */
  readonly names: ReadonlySet<string>;
  /** Whether the file does nothing but pass on what others export. */
  readonly onlyReExports: boolean;
}

/** Reads what a source file reaches for. */
export function importsOf(source: string): ImportsAndGlobals {
  const file = ts.createSourceFile("file.ts", source, ts.ScriptTarget.Latest, true);
  const modules: string[] = [];
  const names = new Set<string>();
  let computed = 0;
  const add = (specifier: ts.Node | undefined): void => {
    if (!specifier) return;
    if (ts.isStringLiteralLike(specifier)) modules.push(specifier.text);
    else computed += 1;
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) add(node.moduleSpecifier);
    else if (ts.isImportTypeNode(node)) {
      if (ts.isLiteralTypeNode(node.argument)) add(node.argument.literal);
    } else if (ts.isExternalModuleReference(node)) add(node.expression);
    else if (ts.isCallExpression(node) && isImporting(node.expression)) add(node.arguments[0]);
    else if (ts.isIdentifier(node) && !isPropertyName(node)) names.add(node.text);
    else if (ts.isPropertyAccessExpression(node) && node.getText(file) === "Math.random") names.add("Math.random");
    ts.forEachChild(node, visit);
  };
  visit(file);
  const onlyReExports = file.statements.every(
    (statement) => ts.isExportDeclaration(statement) && statement.moduleSpecifier !== undefined,
  );
  return { modules, computed, names, onlyReExports };
}

function isImporting(called: ts.Expression): boolean {
  if (called.kind === ts.SyntaxKind.ImportKeyword) return true;
  const text = called.getText();
  return text === "require" || text === "require.resolve" || text === "import.meta.resolve";
}

function isPropertyName(node: ts.Identifier): boolean {
  const { parent } = node;
  return (
    (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
    (ts.isQualifiedName(parent) && parent.right === node) ||
    (ts.isPropertyAssignment(parent) && parent.name === node) ||
    (ts.isPropertySignature(parent) && parent.name === node)
  );
}
