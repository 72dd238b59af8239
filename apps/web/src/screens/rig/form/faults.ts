import { type SourceDescriptionDocument, sourceDescription } from '@sthene/contract';
import { rigWords } from '../../../words/rig.ts';
import { calibrationFaults } from './calibration-faults.ts';

/** What is wrong with one field: `transport.port`, `channels.1.scale`, ... */
export interface Fault {
  readonly path: string;
  readonly words: string;
}

export type Looked =
  | { readonly ok: true; readonly description: SourceDescriptionDocument }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** Looks at a description as the schema and its own names see it; what can be opened on the station only the station knows. */
export function lookAt(document: unknown): Looked {
  const parsed = sourceDescription.safeParse(document);
  if (!parsed.success) return { ok: false, faults: eachOnce(parsed.error.issues.map(faultOf)) };
  const faults = [...namesFaults(parsed.data), ...calibrationFaults(parsed.data)];
  return faults.length > 0 ? { ok: false, faults } : { ok: true, description: parsed.data };
}

/** Several numbers of one field are told as one fault. */
const eachOnce = (faults: readonly Fault[]): Fault[] =>
  faults.filter((one, i) => faults.findIndex(({ path, words }) => path === one.path && words === one.words) === i);

interface Issue {
  readonly path: readonly PropertyKey[];
  readonly code?: string | undefined;
  readonly message: string;
  readonly errors?: readonly (readonly Issue[])[];
  readonly format?: string;
}

function faultOf(issue: Issue): Fault {
  const t = rigWords.faults;
  const path = issue.path.join('.');
  const surface = /^.*\.surface\.(origin|corners)/.exec(path);
  if (surface !== null) return { path: surface[0], words: t.surface[surface[1] as 'origin' | 'corners'] };
  if (issue.code === 'invalid_type' || issue.code === 'invalid_union' || issue.code === 'invalid_value')
    return { path, words: numberField.test(path) ? t.number : t.missing };
  if (issue.code === 'too_small') return { path, words: numberField.test(path) ? t.tooSmall : t.missing };
  if (issue.code === 'too_big') return { path, words: t.tooBig };
  if (issue.format === 'regex') return { path, words: t.hexadecimal };
  return { path, words: t.other };
}

const numberField =
  /(rate|baudRate|port|speed|seed|scale|offset|samples|wrapsAt|step|polynomial|initial|finalXor|rawRange(\.\d)?|matrix\.\d+\.\d+)$/i;

/** Names of channels must be there once, and a field must name one of them. */
function namesFaults({ channels, layout }: SourceDescriptionDocument): Fault[] {
  const t = rigWords.faults;
  const names = channels.map(({ name }) => name);
  const faults = names.flatMap((name, i) =>
    names.indexOf(name) < i ? [{ path: `channels.${i}.name`, words: t.twice(name) }] : [],
  );
  if (!layout) return faults;
  const lists =
    layout.kind === 'lines'
      ? ([['layout.fields', layout.fields]] as const)
      : ([
          ['layout.head', layout.head],
          ['layout.sample', layout.sample],
        ] as const);
  const filled = new Set<string>();
  for (const [path, fields] of lists)
    fields.forEach((field, i) => {
      if (field.role !== 'channel') return;
      filled.add(field.channel);
      if (!names.includes(field.channel))
        faults.push({ path: `${path}.${i}.channel`, words: t.noChannel(field.channel) });
    });
  names.forEach((name, i) => {
    if (!filled.has(name)) faults.push({ path: `channels.${i}.name`, words: t.noField(name) });
  });
  return faults;
}
