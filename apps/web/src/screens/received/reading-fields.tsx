import type { ResultsMappingBody, TablePreview } from '@sthene/contract';
import { receivedWords } from '../../words/received.ts';
import { ChoiceField } from './choice-field.tsx';
import type { Results } from './use-results.ts';

interface FieldsProps {
  readonly results: Results;
  readonly preview: TablePreview;
  readonly mapping: ResultsMappingBody;
}

/** Sheet, row of the headings, decimal sign, order of days, and what a value is of. */
export function ReadingFields({ results, preview, mapping }: FieldsProps) {
  const t = receivedWords.screen;
  const c = t.columns;
  const { open } = results;
  const answer = (what: 'day-order' | 'decimal', part: Partial<ResultsMappingBody>) => {
    results.answer(what);
    results.change({ ...mapping, ...part });
  };
  return (
    <div className="results-fields">
      {preview.sheets.length > 1 && (
        <ChoiceField
          label={c.sheet}
          value={mapping.sheet ?? ''}
          onChange={(sheet) => results.ask({ sheet, header: undefined })}
        >
          {preview.sheets.map((name) => (
            <option key={name}>{name}</option>
          ))}
        </ChoiceField>
      )}
      <ChoiceField
        label={c.header}
        value={String(mapping.header)}
        onChange={(value) => results.ask({ header: Number(value) })}
      >
        <option value="0">{c.noHeader}</option>
        {Array.from({ length: Math.max(12, mapping.header) }, (_, i) => i + 1).map((row) => (
          <option key={row}>{row}</option>
        ))}
      </ChoiceField>
      <ChoiceField
        label={c.dayOrder}
        value={open.includes('day-order') ? '' : mapping.dayOrder}
        question={open.includes('day-order') ? c.questionDay : undefined}
        onChange={(value) => value !== '' && answer('day-order', { dayOrder: value as 'ymd' })}
      >
        {open.includes('day-order') && <option value="">{c.answer}</option>}
        {(['ymd', 'dmy', 'mdy'] as const).map((one) => (
          <option key={one} value={one}>
            {c.dayOrders[one]}
          </option>
        ))}
      </ChoiceField>
      <ChoiceField
        label={c.decimal}
        value={open.includes('decimal') ? '' : mapping.decimal}
        question={open.includes('decimal') ? c.questionDecimal : undefined}
        onChange={(value) => value !== '' && answer('decimal', { decimal: value as '.' })}
      >
        {open.includes('decimal') && <option value="">{c.answer}</option>}
        {(['.', ','] as const).map((one) => (
          <option key={one} value={one}>
            {c.decimals[one]}
          </option>
        ))}
      </ChoiceField>
      <ChoiceField
        label={c.of}
        value={mapping.of}
        onChange={(value) => results.change({ ...mapping, of: value as 'trial' })}
      >
        {(['trial', 'mean', 'best', 'unknown'] as const).map((one) => (
          <option key={one} value={one}>
            {t.ofs[one]}
          </option>
        ))}
      </ChoiceField>
    </div>
  );
}
