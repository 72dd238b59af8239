import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as contract from '@sthene/contract';
import { z } from 'zod';
import { Comments } from './comments.ts';

/** JSON Schema as far as it is read here. */
export interface Json {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly Json[];
  readonly oneOf?: readonly Json[];
  readonly allOf?: readonly Json[];
  readonly items?: Json;
  readonly prefixItems?: readonly Json[];
  readonly properties?: Readonly<Record<string, Json>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: Json | false;
  readonly description?: string;
  readonly default?: unknown;
  readonly pattern?: string;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly maxItems?: number;
}

const sources = fileURLToPath(new URL('../../../packages/contract/src/live/', import.meta.url));

const isSchema = (value: unknown): value is z.ZodType => value instanceof z.ZodType;

/** Every schema of the contract with the name it is exported by. */
const exported = Object.entries(contract).flatMap(([name, value]) => (isSchema(value) ? [[name, value] as const] : []));

/** The name a schema is exported by; of an array that of its items, with `many`. */
export function nameOf(schema: unknown): { readonly name: string; readonly many: boolean } | undefined {
  const found = exported.find(([, known]) => known === schema);
  if (found !== undefined) return { name: found[0], many: false };
  const inner = schema instanceof z.ZodArray ? nameOf(schema.element) : undefined;
  return inner && { name: inner.name, many: true };
}

/** What is sent, each way. */
export const directions = ['toStation', 'toOperator', 'toWall'] as const;

/** Shapes of the live interface that other ones use; the rest of the HTTP interface describes itself. */
const files = readdirSync(sources).filter((name) => name.endsWith('.ts') && !/^(index|routes)\.ts$/.test(name));

const comments = new Comments(files.map((name) => sources + name));

function withComments(name: string, schema: Json, path: readonly string[] = []): Json {
  const { properties, items } = schema;
  const said = path.length === 0 ? comments.of(name) : comments.at(name, path);
  const inside = Object.entries(properties ?? {});
  return {
    ...schema,
    ...(said === '' ? {} : { description: said }),
    ...(properties === undefined
      ? {}
      : { properties: Object.fromEntries(inside.map(([key, one]) => [key, withComments(name, one, [...path, key])])) }),
    ...(items?.properties === undefined ? {} : { items: withoutDescription(withComments(name, items, path)) }),
  };
}

const withoutDescription = ({ description: _, ...rest }: Json): Json => rest;

/** Every named shape of the live interface as JSON Schema with the comments of its source. */
export function shapes(): ReadonlyMap<string, Json> {
  const registry = z.registry<{ id: string }>();
  const seen = new Set<z.ZodType>();
  for (const [name, schema] of exported) {
    if (seen.has(schema) || !isOfLive(name)) continue;
    seen.add(schema);
    registry.add(schema, { id: name });
  }
  // `input`: what a sender may leave out is optional, and fields that a later version adds are no fault.
  const { schemas } = z.toJSONSchema(registry, { io: 'input', uri: (id) => `#/$defs/${id}` });
  return new Map(
    Object.entries(schemas).map(([name, schema]) => {
      const { $schema: _, $id: __, ...rest } = schema as Json & { $schema?: string; $id?: string };
      return [name, withComments(name, rest)] as const;
    }),
  );
}

const isOfLive = (name: string): boolean =>
  name === 'verdict' || comments.has(name) || directions.some((one) => one === name);

/** Names of the shapes that a schema refers to, and so on. */
export function reachable(all: ReadonlyMap<string, Json>, from: readonly string[]): readonly string[] {
  const found = new Set<string>();
  const visit = (name: string): void => {
    if (found.has(name)) return;
    found.add(name);
    for (const [, inner] of JSON.stringify(all.get(name) ?? {}).matchAll(/"#\/\$defs\/([^"]+)"/g)) visit(inner ?? '');
  };
  for (const name of from) visit(name);
  return [...found];
}

/** The file beside the page: every message, each way. */
export function schemaDocument(): string {
  const all = shapes();
  const names = reachable(all, directions);
  const document = {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: `sthene.live/${contract.liveProtocol}`,
    title: 'Messages of the live interface',
    description:
      'One message in either direction. The shape for one direction alone is $defs/toStation, toOperator or toWall.',
    anyOf: directions.map((name) => ({ $ref: `#/$defs/${name}` })),
    $defs: Object.fromEntries([...names].sort().map((name) => [name, all.get(name)])),
  };
  return `${JSON.stringify(document, undefined, 1)}\n`;
}
