import { liveRoutes, type Route } from '@sthene/contract';
import { type Json, nameOf, reachable, shapes } from './schema.ts';

const cell = (text: string): string => text.replaceAll('|', '\\|');
const code = (text: string): string => `\`${text}\``;

/** A shape's name as a link to its heading. */
const link = (name: string): string => `[${code(name)}](#shape-${name.toLowerCase()})`;

/** What a value may be, in words. */
function kind(schema: Json): string {
  const { $ref, anyOf, oneOf, allOf, items, prefixItems, type } = schema;
  if ($ref !== undefined) return link($ref.replace('#/$defs/', ''));
  if (schema.const !== undefined) return code(JSON.stringify(schema.const));
  if (schema.enum !== undefined) return schema.enum.map((one) => code(String(one))).join(', ');
  const several = anyOf ?? oneOf;
  if (several !== undefined) return several.map(kind).join(' or ');
  if (allOf !== undefined) return allOf.map(kind).join(' and ');
  if (prefixItems !== undefined) return `${prefixItems.length} values: ${prefixItems.map(kind).join(', ')}`;
  if (type === 'array') return `list of ${items === undefined ? 'anything' : kind(items)}${upTo(schema.maxItems)}`;
  if (type === 'object') {
    const { additionalProperties: values } = schema;
    if (schema.properties !== undefined) return 'object';
    return values === undefined || values === false ? 'object' : `object of name to ${kind(values)}`;
  }
  const types = typeof type === 'string' ? type : type?.join(' or ');
  return `${types ?? 'anything'}${limits(schema)}`;
}

const upTo = (most: number | undefined): string => (most === undefined ? '' : `, at most ${most}`);

function limits({ minimum, maximum, minLength, maxLength, pattern, type }: Json): string {
  const said: string[] = [];
  const [low, high] = type === 'string' ? [minLength, maxLength] : [minimum, maximum];
  const of = type === 'string' ? ' characters' : '';
  const whole = type === 'integer' && high === Number.MAX_SAFE_INTEGER;
  if (low !== undefined && high !== undefined && !whole && low > Number.MIN_SAFE_INTEGER)
    said.push(`${low} to ${high}${of}`);
  else if (high !== undefined && !whole) said.push(`at most ${high}${of}`);
  else if (low !== undefined && low > Number.MIN_SAFE_INTEGER) said.push(`at least ${low}${of}`);
  if (pattern !== undefined) said.push(`like ${code(pattern)}`);
  return said.length === 0 ? '' : `, ${said.join(', ')}`;
}

/** Rows of an object, what is written in place below it with its path. */
function rows(schema: Json, before = ''): string[][] {
  const needed = new Set(schema.required ?? []);
  return Object.entries(schema.properties ?? {}).flatMap(([name, one]) => {
    const path = `${before}${name}`;
    if (before === '' && (name === 'sequence' || name === 'type')) return [];
    const usual = one.default === undefined ? '' : ` Left out: ${code(JSON.stringify(one.default))}.`;
    const text = `${one.description ?? ''}${usual}`.trim();
    const row = [code(path), kind(one), needed.has(name) ? 'yes' : 'no', text];
    const deeper = one.properties === undefined ? [] : rows(one, `${path}.`);
    const listed = one.items?.properties === undefined ? [] : rows(one.items, `${path}[].`);
    return [row, ...deeper, ...listed];
  });
}

function table(schema: Json): string[] {
  const all = rows(schema);
  if (all.length === 0) return schema.properties === undefined ? [`${kind(schema)}.`] : ['No further field.'];
  return [
    '| field | is | always | means |',
    '| --- | --- | --- | --- |',
    ...all.map((row) => `| ${row.map(cell).join(' | ')} |`),
  ];
}

const paragraph = (text: string | undefined): string[] => (text === undefined || text === '' ? [] : [text, '']);

/** Names of the messages of a direction, in the order of their union. */
export const messagesOf = (all: ReadonlyMap<string, Json>, direction: string): readonly Json[] => {
  const { oneOf = [], anyOf = [] } = all.get(direction) ?? {};
  return [...oneOf, ...anyOf].map((one) =>
    one.$ref === undefined ? one : (all.get(one.$ref.replace('#/$defs/', '')) as Json),
  );
};

const typeOf = (message: Json): string => String(message.properties?.type?.const);

/** All messages of a direction, a section each. */
export function messages(direction: string): string {
  const all = shapes();
  return messagesOf(all, direction)
    .flatMap((message) => [
      `#### ${code(typeOf(message))}`,
      '',
      ...paragraph(message.description),
      ...table(message),
      '',
    ])
    .join('\n')
    .trim();
}

/** Types of a direction, as a list of words. */
export const typesOf = (direction: string): string[] => messagesOf(shapes(), direction).map(typeOf);

/** A message that is told walls in the same words as others stands there only. */
const isMessage = (schema: Json): boolean => schema.properties?.type?.const !== undefined;

/** Shapes that messages and routes are made of. */
export function namedShapes(): string {
  const all = shapes();
  const used = reachable(all, ['toStation', 'toOperator', 'toWall', ...routeShapes().filter((name) => all.has(name))]);
  return used
    .filter((name) => !['toStation', 'toOperator', 'toWall'].includes(name) && !isMessage(all.get(name) ?? {}))
    .sort((a, b) => a.localeCompare(b, 'en'))
    .flatMap((name) => {
      const shape = all.get(name) ?? {};
      return [`#### Shape ${name}`, '', ...paragraph(shape.description), ...table(shape), ''];
    })
    .join('\n')
    .trim();
}

const everyRoute = (): readonly Route<unknown, unknown, unknown, unknown>[] => Object.values(liveRoutes) as never;

function routeShapes(): string[] {
  return everyRoute().flatMap(({ body, response }) => [body, response].flatMap((one) => nameOf(one)?.name ?? []));
}

/** The HTTP routes of rigs, sources, days and gates. */
export function routeTable(): string {
  const all = shapes();
  const shown = (schema: unknown): string => {
    if (schema === undefined) return '';
    const found = nameOf(schema);
    if (found === undefined) return fieldsOf(schema);
    const name = all.has(found.name) ? link(found.name) : code(found.name);
    return found.many ? `list of ${name}` : name;
  };
  return [
    '| route | does | takes | answers |',
    '| --- | --- | --- | --- |',
    ...everyRoute().map(
      ({ method, path, summary, body, response }) =>
        `| ${code(`${method} ${path}`)} | ${cell(summary)} | ${shown(body)} | ${shown(response)} |`,
    ),
  ].join('\n');
}

/** Fields of a body that has no name of its own. */
const fieldsOf = (schema: unknown): string =>
  Object.keys((schema as { shape?: object }).shape ?? {})
    .map(code)
    .join(', ');
