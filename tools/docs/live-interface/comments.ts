import { readFileSync } from 'node:fs';
import ts from 'typescript';

/** What the source says of a schema and of its fields. */
interface Said {
  readonly doc: string;
  readonly fields: ReadonlyMap<string, Field>;
}

interface Field {
  readonly doc: string;
  /** Fields written in place. */
  readonly inside: ReadonlyMap<string, Field>;
  /** Name of the constant that stands in its place. */
  readonly same?: string;
}

/** Doc comments of the schemas of some source files, by the name of the constant. */
export class Comments {
  readonly #said = new Map<string, Said>();

  constructor(paths: readonly string[]) {
    for (const path of paths) {
      const file = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, true);
      for (const statement of file.statements) {
        if (!ts.isVariableStatement(statement)) continue;
        for (const { name, initializer } of statement.declarationList.declarations) {
          if (!ts.isIdentifier(name) || initializer === undefined) continue;
          this.#said.set(name.text, { doc: docOf(statement), fields: fieldsIn(initializer) });
        }
      }
    }
  }

  /** Whether the files have a constant of this name. */
  has(schema: string): boolean {
    return this.#said.has(schema);
  }

  /** The comment over a schema; empty where there is none. */
  of(schema: string): string {
    return this.#said.get(schema)?.doc ?? '';
  }

  /** The comment at a field, by its path from the schema. */
  at(schema: string, path: readonly string[]): string {
    let fields = this.#said.get(schema)?.fields;
    let doc = '';
    for (const name of path) {
      const field = fields?.get(name);
      doc = field?.doc ?? '';
      fields = field?.same === undefined ? field?.inside : this.#said.get(field.same)?.fields;
    }
    return doc;
  }
}

function docOf(node: ts.Node): string {
  const [comment] = ts.getJSDocCommentsAndTags(node);
  const text = comment && ts.getTextOfJSDocComment(comment.comment);
  return (text ?? '').replace(/\s+/g, ' ').trim();
}

/** Fields of the first object that is given to `z.object` or `z.strictObject` in an expression. */
function fieldsIn(expression: ts.Expression): ReadonlyMap<string, Field> {
  const literal = objectIn(expression);
  const fields = new Map<string, Field>();
  for (const property of literal?.properties ?? []) {
    if (ts.isShorthandPropertyAssignment(property)) {
      fields.set(property.name.text, { doc: docOf(property), inside: new Map(), same: property.name.text });
    } else if (ts.isPropertyAssignment(property) && ts.isIdentifier(property.name)) {
      fields.set(property.name.text, {
        doc: docOf(property),
        inside: fieldsIn(property.initializer),
        ...(ts.isIdentifier(property.initializer) ? { same: property.initializer.text } : {}),
      });
    }
  }
  return fields;
}

function objectIn(node: ts.Node): ts.ObjectLiteralExpression | undefined {
  if (ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression)) {
    const [argument] = node.arguments;
    const makes = /^(strictO|o)bject$/.test(node.expression.name.text);
    if (makes && argument !== undefined && ts.isObjectLiteralExpression(argument)) return argument;
  }
  return ts.forEachChild(node, objectIn);
}
