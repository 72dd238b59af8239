import { decimalsFor, numberText, signedText, unitText } from '../../number/format.ts';
import { Icon } from '../../parts/icon.tsx';
import { reasonWords, words } from '../../words/index.ts';
import { Explain } from './explain.tsx';
import { definitionOf, metricTitle } from './groups.ts';
import { resolutionOf } from './numbers.ts';
import { SpreadStrip } from './spread-strip.tsx';
import { useShared } from './trial-context.ts';
import { plusMinusText } from './uncertain.ts';

/** Metrics whose sign is a direction and is therefore always written. */
const directed = (id: string) => id.startsWith('asymmetry_');

/** One value with its spread; opened, it says how it came about and is marked on the curve. */
export function ValueRow({ id }: { id: string }) {
  const { view, uncertainty, highlight, setHighlight } = useShared();
  const measured = view.result.metrics[id];
  if (!measured) return null;
  const open = highlight?.kind === 'metric' && highlight.id === id;
  const has = 'value' in measured;
  const decimals = has ? decimalsFor(measured.unit, measured.value, resolutionOf(view.result)) : 0;
  const definition = definitionOf(id);
  const sure = has ? plusMinusText(uncertainty?.metrics[id], decimals) : undefined;
  return (
    <>
      <tr data-open={open}>
        <th scope="row">
          <button
            type="button"
            className="value-name"
            aria-expanded={open}
            onClick={() => setHighlight(open ? undefined : { kind: 'metric', id })}
          >
            <Icon name="open" size={13} />
            <span>{metricTitle(id)}</span>
          </button>
        </th>
        {has ? (
          <>
            <td className="value-number number">
              {directed(id) ? signedText(measured.value, decimals) : numberText(measured.value, decimals)}
              {sure !== undefined && (
                <span className="value-sure" title={words.values.sureLong}>
                  {' '}
                  {sure}
                </span>
              )}
            </td>
            <td className="value-unit">{unitText(measured.unit)}</td>
            <td className="value-spread">
              {definition && !definition.dependsOnOnset ? (
                <span className="small soft" title={words.values.sameLong}>
                  {words.values.same}
                </span>
              ) : (
                <SpreadStrip id={id} value={measured.value} unit={measured.unit} />
              )}
            </td>
          </>
        ) : (
          <td colSpan={3} className="value-reason small soft">
            {reasonWords(measured.reason)}
          </td>
        )}
      </tr>
      {open && (
        <tr className="explain-row">
          <td colSpan={4}>
            <Explain id={id} measured={measured} />
          </td>
        </tr>
      )}
    </>
  );
}
