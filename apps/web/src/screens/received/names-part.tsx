import type { ResultsMappingBody, TablePreview } from '@sthene/contract';
import { metricFacts, protocolRegistry, units } from '@sthene/core';
import { unitsFor } from '@sthene/formats/results-table';
import { unitText } from '../../number/format.ts';
import { receivedWords } from '../../words/received.ts';
import { testTitle } from '../trial/test-title.ts';
import type { Results } from './use-results.ts';

interface NamesProps {
  readonly results: Results;
  readonly preview: TablePreview;
  readonly mapping: ResultsMappingBody;
}

/** Names that stand in cells: of values in a long table, and of tests. */
export function NamesPart({ results, preview, mapping }: NamesProps) {
  const t = receivedWords.screen.columns;
  const has = (as: string) => mapping.columns.some((one) => one.as === as);
  const metric = (name: string, id: string) =>
    results.change({
      ...mapping,
      metrics: { ...mapping.metrics, [name]: id },
      units: { ...mapping.units, [name]: unitFor(id, mapping.units[name]) },
    });
  return (
    <>
      {has('metric') && has('value') && preview.metricNames.length > 0 && (
        <>
          <h3>{t.metrics}</h3>
          <ul className="results-names">
            {preview.metricNames.map((name) => (
              <li key={name} data-ignored={!mapping.metrics[name]}>
                <b>{name}</b>
                <select
                  aria-label={name}
                  value={mapping.metrics[name] ?? ''}
                  onChange={(event) => metric(name, event.target.value)}
                >
                  <option value="">{t.leftOut}</option>
                  {metricFacts.all.map(({ id, title }) => (
                    <option key={id} value={id}>
                      {title}
                    </option>
                  ))}
                </select>
                {mapping.metrics[name] && !has('unit') && (
                  <select
                    className="number"
                    aria-label={`${name}: ${t.unit}`}
                    value={mapping.units[name] ?? ''}
                    onChange={(event) =>
                      results.change({ ...mapping, units: { ...mapping.units, [name]: event.target.value } })
                    }
                  >
                    {unitsFor(mapping.metrics[name], units).map((code) => (
                      <option key={code} value={code}>
                        {unitText(code)}
                      </option>
                    ))}
                  </select>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
      {has('test') && preview.testNames.length > 0 && (
        <>
          <h3>{t.tests}</h3>
          <ul className="results-names">
            {preview.testNames.map((name) => (
              <li key={name} data-ignored={!mapping.tests[name]}>
                <b>{name}</b>
                <select
                  aria-label={name}
                  value={mapping.tests[name] ?? ''}
                  onChange={(event) =>
                    results.change({ ...mapping, tests: { ...mapping.tests, [name]: event.target.value } })
                  }
                >
                  <option value="">{t.leftOut}</option>
                  {protocolRegistry.all.map(({ id }) => (
                    <option key={id} value={id}>
                      {testTitle(id)}
                    </option>
                  ))}
                </select>
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

const unitFor = (metric: string, before: string | undefined): string =>
  before !== undefined && unitsFor(metric, units).includes(before) ? before : (unitsFor(metric, units)[0] ?? '');
