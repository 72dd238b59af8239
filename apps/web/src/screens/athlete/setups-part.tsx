import type { AthleteView } from '@sthene/contract';
import { numberText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { followWords } from '../../words/follow.ts';

/** How each session was set up, newest first: what a change may come from. */
export function SetupsPart({ view }: { view: AthleteView }) {
  const t = followWords.setups;
  const { setupFields, sessions } = view;
  return (
    <details className="follow-parts">
      <summary>{t.title}</summary>
      {setupFields.length === 0 ? (
        <p className="soft">{t.none}</p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
        <section className="setups-scroll" tabIndex={0} aria-label={t.title}>
          <table className="list setups-table">
            <thead>
              <tr>
                <th scope="col">{t.session}</th>
                {setupFields.map(({ id, title, unit }) => (
                  <th key={id} scope="col">
                    {title}
                    {unit === undefined ? '' : `, ${unit}`}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {sessions.toReversed().map(({ id, at, setup }) => (
                <tr key={id}>
                  <th scope="row">{whenText(at, false)}</th>
                  {setupFields.map((field) => (
                    <td key={field.id}>{cell(setup?.[field.id])}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
    </details>
  );
}

function cell(value: string | number | boolean | undefined) {
  const t = followWords.setups;
  if (value === undefined || value === '') return <span className="soft">{t.missing}</span>;
  if (typeof value === 'boolean') return value ? t.yes : t.no;
  return typeof value === 'number' ? (
    <span className="number">{numberText(value, value % 1 === 0 ? 0 : 1)}</span>
  ) : (
    value
  );
}
