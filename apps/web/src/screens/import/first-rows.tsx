import { importWords } from '../../words/importing.ts';
import type { FirstRows as Rows } from './worker/messages.ts';

/** The first rows of a file as a table; wide ones scroll in their own frame. */
export function FirstRows({ name, rows }: { name: string; rows: Rows }) {
  const t = importWords.preview;
  return (
    <section
      className="first-rows"
      aria-label={t.rowsOf(name)}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a frame that scrolls must be reachable by keys
      tabIndex={0}
    >
      <table>
        <caption>{t.rows}</caption>
        <thead>
          <tr>
            <th scope="col" className="row-n">
              {t.row}
            </th>
            {rows.head.map((cell, i) => (
              <th scope="col" key={i}>
                {cell}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.rows.map((cells, row) => (
            <tr key={row}>
              <th scope="row" className="row-n number">
                {rows.from + row}
              </th>
              {cells.map((cell, i) => (
                <td key={i} className="number">
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
