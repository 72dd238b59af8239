import type { ColumnRoleBody, ResultsMappingBody, TablePreview } from '@sthene/contract';
import { useId } from 'react';
import { receivedWords } from '../../words/received.ts';
import { ColumnRow } from './column-row.tsx';
import { NamesPart } from './names-part.tsx';
import { ReadingFields } from './reading-fields.tsx';
import type { Results } from './use-results.ts';

interface ColumnsProps {
  readonly results: Results;
  readonly preview: TablePreview;
  readonly mapping: ResultsMappingBody;
}

/** Every column of the table with its first values, and what it is. */
export function ColumnsPart({ results, preview, mapping }: ColumnsProps) {
  const t = receivedWords.screen;
  const id = useId();
  const change = (at: number, role: ColumnRoleBody) =>
    results.change({
      ...mapping,
      columns: mapping.columns.map((one, c) =>
        c === at ? role : role.as !== 'ignore' && role.as !== 'values' && one.as === role.as ? { as: 'ignore' } : one,
      ),
    });
  return (
    <section className="results-part" aria-labelledby={id}>
      <h2 id={id}>{t.columns.title}</h2>
      <p className="small soft">
        {preview.template ? t.kept(preview.template) : t.columns.text}
        {preview.template && (
          <button type="button" className="button quiet" onClick={() => results.ask({ fresh: true })}>
            {t.columns.anew}
          </button>
        )}
      </p>
      <ReadingFields results={results} preview={preview} mapping={mapping} />
      <ul className="results-columns">
        {mapping.columns.map((role, c) => (
          <ColumnRow
            key={c}
            number={c + 1}
            heading={preview.headings[c] ?? ''}
            examples={[...new Set(preview.rows.flatMap((row) => row[c] || []))].slice(0, 3)}
            role={role}
            onChange={(next) => change(c, next)}
          />
        ))}
      </ul>
      <NamesPart results={results} preview={preview} mapping={mapping} />
    </section>
  );
}
