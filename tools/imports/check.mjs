// Checks who imports whom: the table of rules.mjs, Node's own modules, declared dependencies, and circles.
import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync } from 'oxc-parser';
import { mayImport, mayUseNode } from './rules.mjs';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const builtins = new Set(builtinModules);

/** Every import of a TypeScript file: its specifier and whether it is for types alone. */
export function importsOf(text, name) {
  const { program, module, errors } = parseSync(name, text);
  if (errors.length > 0) throw new SyntaxError(`${name}: ${errors[0].message}`);
  const found = program.body
    .filter((node) => node.source)
    .map((node) => ({ specifier: node.source.value, typesOnly: isOfTypes(node) }));
  // What is named by anything but a string is not known before it runs.
  const lazy = module.dynamicImports
    .map(({ moduleRequest: { start, end } }) => /^(['"])(.*)\1$/.exec(text.slice(start, end))?.[2])
    .filter((specifier) => specifier !== undefined)
    .map((specifier) => ({ specifier, typesOnly: false, lazy: true }));
  return [...found, ...lazy];
}

/** `import type`, `export type`, and an import of names each of which is a type. */
const isOfTypes = ({ type, importKind, exportKind, specifiers }) =>
  (importKind ?? exportKind) === 'type' ||
  (type === 'ImportDeclaration' && specifiers.length > 0 && specifiers.every((one) => one.importKind === 'type'));

/** The rules one file breaks, as sentences. `manifest` is the workspace's package.json. */
export function breaches(file, imports, workspace, manifest) {
  const out = [];
  const declared = new Set([
    ...Object.keys(manifest.dependencies ?? {}),
    ...Object.keys(manifest.devDependencies ?? {}),
  ]);
  for (const { specifier } of imports) {
    if (specifier.startsWith('.')) {
      const target = relative(root, resolve(root, dirname(file), specifier));
      if (!target.startsWith(`${workspace}/`)) out.push(`${file} reaches out of its package: ${specifier}`);
      continue;
    }
    const name = specifier.startsWith('@') ? specifier.split('/').slice(0, 2).join('/') : specifier.split('/')[0];
    if (specifier.startsWith('node:') || builtins.has(name)) {
      if (!mayUseNode.some((rule) => rule.test(file)))
        out.push(`${file} uses Node's ${specifier}; this code must also run in a browser`);
    } else if (name.startsWith('@sthene/')) {
      if (!mayImport[workspace].includes(name)) out.push(`${file} may not import ${name}`);
      else if (!declared.has(name)) out.push(`${workspace}/package.json does not declare ${name}`);
    } else if (!declared.has(name)) out.push(`${workspace}/package.json does not declare ${name}, imported by ${file}`);
  }
  return out;
}

/** Circles among files, by the imports that exist at run time. `edges` maps a file to the files it imports. */
export function circles(edges) {
  const state = new Map();
  const path = [];
  const found = [];
  const walk = (file) => {
    if (state.get(file) === 'done') return;
    if (state.get(file) === 'open') {
      found.push([...path.slice(path.indexOf(file)), file].join(' -> '));
      return;
    }
    state.set(file, 'open');
    path.push(file);
    for (const next of edges.get(file) ?? []) walk(next);
    path.pop();
    state.set(file, 'done');
  };
  for (const file of edges.keys()) walk(file);
  return found;
}

function sources(folder) {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name) && !/\.test\.tsx?$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)));
}

export function checkAll() {
  const out = [];
  const edges = new Map();
  let files = 0;
  for (const workspace of Object.keys(mayImport)) {
    const manifest = JSON.parse(readFileSync(join(root, workspace, 'package.json'), 'utf8'));
    for (const file of sources(join(workspace, 'src'))) {
      files++;
      const imports = importsOf(readFileSync(join(root, file), 'utf8'), file);
      out.push(...breaches(file, imports, workspace, manifest));
      edges.set(
        file,
        imports
          .filter((one) => !one.typesOnly && !one.lazy && one.specifier.startsWith('.'))
          .map((one) => relative(root, resolve(root, dirname(file), one.specifier))),
      );
    }
  }
  out.push(...circles(edges).map((circle) => `circle: ${circle}`));
  return { files, breaches: out };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const result = checkAll();
  for (const line of result.breaches) console.error(line);
  console.error(`imports: ${result.files} files, ${result.breaches.length} breaches`);
  process.exit(result.breaches.length ? 1 : 0);
}
