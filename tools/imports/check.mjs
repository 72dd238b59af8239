// Checks who imports whom: the table of rules.mjs, Node's own modules, declared dependencies, and circles.
import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { mayImport, mayUseNode } from './rules.mjs';

const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const builtins = new Set(builtinModules);

/** Every import of a TypeScript file: its specifier and whether it is for types alone. */
export function importsOf(text, name) {
  const found = [];
  const file = ts.createSourceFile(
    name,
    text,
    ts.ScriptTarget.ESNext,
    true,
    name.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS,
  );
  const visit = (node) => {
    if ((ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) && node.moduleSpecifier) {
      const clause = ts.isImportDeclaration(node) ? node.importClause : node;
      const named =
        clause && ts.isImportDeclaration(node) && clause.namedBindings && ts.isNamedImports(clause.namedBindings)
          ? clause.namedBindings.elements
          : undefined;
      const typesOnly =
        Boolean(clause?.isTypeOnly) ||
        Boolean(named && !clause.name && named.length > 0 && named.every((one) => one.isTypeOnly));
      found.push({ specifier: node.moduleSpecifier.text, typesOnly });
    } else if (
      ts.isCallExpression(node) &&
      node.expression.kind === ts.SyntaxKind.ImportKeyword &&
      node.arguments[0] &&
      ts.isStringLiteral(node.arguments[0])
    ) {
      found.push({ specifier: node.arguments[0].text, typesOnly: false, lazy: true });
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

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
