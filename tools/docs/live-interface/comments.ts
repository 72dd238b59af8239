import { readFileSync } from 'node:fs';
import { type Argument, type Comment, type Expression, type ObjectExpression, parseSync } from 'oxc-parser';

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
      const text = readFileSync(path, 'utf8');
      const { program, comments } = parseSync(path, text);
      const docs = new Docs(text, comments);
      for (const statement of program.body) {
        const declared = statement.type === 'ExportNamedDeclaration' ? statement.declaration : statement;
        if (declared?.type !== 'VariableDeclaration') continue;
        for (const { id, init } of declared.declarations) {
          if (id.type !== 'Identifier' || init === null) continue;
          this.#said.set(id.name, { doc: docs.over(statement.start), fields: docs.fieldsIn(init) });
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

/** The doc comments of one file. */
class Docs {
  readonly #text: string;
  readonly #comments: readonly Comment[];

  constructor(text: string, comments: readonly Comment[]) {
    this.#text = text;
    this.#comments = comments.filter(({ type, value }) => type === 'Block' && value.startsWith('*'));
  }

  /** The words right over a place, without its tags. */
  over(place: number): string {
    const comment = this.#comments.findLast(({ end }) => end <= place);
    if (comment === undefined || this.#text.slice(comment.end, place).trim() !== '') return '';
    const lines = comment.value.split('\n').map((line) => line.replace(/^\s*\*+/, '').trim());
    const tags = lines.findIndex((line) => line.startsWith('@'));
    return lines
      .slice(0, tags === -1 ? lines.length : tags)
      .join(' ')
      .replace(/\s+/g, ' ')
      .trim();
  }

  /** Fields of the first object that is given to `z.object` or `z.strictObject` in an expression. */
  fieldsIn(expression: Expression): ReadonlyMap<string, Field> {
    const fields = new Map<string, Field>();
    for (const property of objectIn(expression)?.properties ?? []) {
      if (property.type !== 'Property' || property.key.type !== 'Identifier') continue;
      const { key, value, shorthand } = property;
      fields.set(key.name, {
        doc: this.over(property.start),
        inside: shorthand ? new Map() : this.fieldsIn(value),
        ...(value.type === 'Identifier' ? { same: value.name } : {}),
      });
    }
    return fields;
  }
}

function objectIn(node: Expression | Argument): ObjectExpression | undefined {
  if (node.type !== 'CallExpression') return undefined;
  const { callee, arguments: given } = node;
  const [argument] = given;
  if (callee.type === 'MemberExpression') {
    const makes = callee.property.type === 'Identifier' && /^(strictO|o)bject$/.test(callee.property.name);
    if (makes && argument?.type === 'ObjectExpression') return argument;
    const inner = objectIn(callee.object);
    if (inner !== undefined) return inner;
  }
  for (const one of given) {
    const found = objectIn(one);
    if (found !== undefined) return found;
  }
  return undefined;
}
