import { formatOf } from '@sthene/formats';
import type { LabReader } from '@sthene/station';
import { csvLine } from '../../terminal/csv.ts';

/**
 * Curves of sessions as files, then one long table of their results. People stand in names and table by their code. Each file is
 * named by code, day, test and number of the trial, and by the session where two would be alike.
 */
export async function* exportFiles(
  lab: LabReader,
  sessions: readonly string[],
  kind: 'parquet' | 'csv',
): AsyncGenerator<{ readonly name: string; readonly content: Uint8Array | string }> {
  const format = formatOf(kind === 'csv' ? 'text' : 'parquet');
  if (format?.write === undefined) throw new Error('the format is not listed');
  const used = new Set<string>();
  let table = csvLine([
    'session',
    'code',
    'started_at',
    'test',
    'trial',
    'effort',
    'state',
    'file',
    'method',
    'method_sha256',
    'metric',
    'value',
    'unit',
    'reason',
  ]);
  for (const id of sessions) {
    const session = await lab.session(id);
    for (const row of session.rows) {
      const trial = await lab.trial(row.id);
      const base = fileSafe(
        `${session.person.code}_${session.startedAt.slice(0, 10)}_${session.protocol}_${row.order}`,
      );
      const stem = used.has(base) ? `${base}_${id.slice(0, 8)}` : base;
      used.add(stem);
      const name = `${stem}.${kind}`;
      yield { name, content: await format.write(await lab.recording(row.id)) };
      const { method, metrics } = trial.result;
      for (const [metric, measured] of Object.entries(metrics)) {
        const has = 'value' in measured;
        table += csvLine([
          id,
          session.person.code,
          session.startedAt,
          session.protocol,
          row.order,
          row.effort,
          row.state,
          name,
          `${method.name} ${method.version}`,
          method.sha256,
          metric,
          has ? measured.value : undefined,
          has ? measured.unit : undefined,
          has ? undefined : measured.reason,
        ]);
      }
    }
  }
  yield { name: 'results.csv', content: table };
}

const fileSafe = (text: string) => text.replace(/[^\p{L}\p{N}._-]+/gu, '-').replace(/^[-.]+|[-.]+$/g, '');
