import type { ReactNode } from 'react';
import { decimalsFor, numberText, signedText, unitText } from '../../number/format.ts';
import { ruleWords, words } from '../../words/index.ts';
import { highlightSpan } from './evidence.ts';
import { definitionOf } from './groups.ts';
import { type Measured, onsetOf, resolutionOf, secondsText, writerOf } from './numbers.ts';
import { useShared } from './trial-context.ts';
import { UncertaintyPart } from './uncertainty-part.tsx';
import './explain.css';

/** Definition, method, window, threshold, what went in, and the value under each onset rule. */
export function Explain({ id, measured }: { id: string; measured: Measured }) {
  const { view, uncertainty, zoomTo } = useShared();
  const { result } = view;
  const definition = definitionOf(id);
  const t = words.explain;
  const write = writerOf(result);
  const onset = onsetOf(result);
  const span = highlightSpan(result, { kind: 'metric', id });
  return (
    <div className="explain">
      <dl>
        {definition && <Fact name={t.formula} value={<span className="formula">{definition.formula}</span>} />}
        {measured.evidence?.interval && (
          <Fact
            name={isInstant(measured.evidence.interval) ? t.instant : t.window}
            value={<Window span={measured.evidence.interval} />}
          />
        )}
        {definition?.dependsOnOnset && onset && (
          <Fact
            name={t.onset}
            value={
              <>
                <span className="number">{secondsText(onset.index, result.sampleRate)}</span> s, {ruleWords(onset.rule)}
                {!onset.byHand && <>; {words.curve.threshold(write(onset.threshold, onset.thresholdUnit))}</>}
              </>
            }
          />
        )}
        {'exponent' in measured && measured.exponent !== undefined && (
          <Fact name={t.exponent} value={<span className="number">{numberText(measured.exponent, 4)}</span>} />
        )}
        {(measured.evidence?.terms?.length ?? 0) > 0 && (
          <Fact
            name={t.terms}
            value={
              <ul>
                {measured.evidence?.terms?.map((term) => (
                  <li key={term.name}>
                    <span>{term.name}</span> <span className="number">{write(term.value, term.unit)}</span>
                  </li>
                ))}
              </ul>
            }
          />
        )}
        {definition?.dependsOnOnset && 'value' in measured && (
          <Fact name={t.rules} value={<ByRule id={id} value={measured.value} unit={measured.unit} />} />
        )}
        {'value' in measured && uncertainty?.metrics[id] !== undefined && (
          <Fact
            name={words.uncertainty.title}
            value={<UncertaintyPart id={id} value={measured.value} unit={measured.unit} />}
          />
        )}
        {definition && <Fact name={t.source} value={definition.source} />}
        <Fact
          name={t.method}
          value={
            <>
              {view.provenance.method.name} {view.provenance.method.version}{' '}
              <span className="number" title={view.provenance.method.sha256}>
                {view.provenance.method.sha256.slice(0, 12)}
              </span>
            </>
          }
        />
        <Fact
          name={t.id}
          value={
            <span className="number">
              {id} {definition ? `v${definition.version}` : ''}
            </span>
          }
        />
      </dl>
      {span && (
        <p className="small soft explain-end">
          {t.onCurve}
          <button type="button" className="button small" onClick={() => zoomTo(span)}>
            {words.curve.zoomTo}
          </button>
        </p>
      )}
    </div>
  );
}

const isInstant = (span: { start: number; end: number }) => span.end - span.start < 1;

function Fact({ name, value }: { name: string; value: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  );
}

function Window({ span }: { span: { start: number; end: number } }) {
  const { view } = useShared();
  const { sampleRate } = view.result;
  const onset = onsetOf(view.result)?.index;
  const ms = (sample: number) => signedText((1000 * (sample - (onset ?? 0))) / sampleRate, 0);
  if (isInstant(span))
    return (
      <>
        {words.explain.at(secondsText(span.start, sampleRate))}
        {onset !== undefined && `, ${ms(span.start)} ms from onset`}
      </>
    );
  const length = numberText((1000 * (span.end - span.start)) / sampleRate, 0);
  return (
    <>
      {words.explain.from(secondsText(span.start, sampleRate), secondsText(span.end, sampleRate), length)}
      {onset !== undefined && <>; {words.explain.fromOnset(ms(span.start), ms(span.end))}</>}
    </>
  );
}

/** The value under every automatic rule, with where that rule puts the onset. */
function ByRule({ id, value, unit }: { id: string; value: number; unit: string }) {
  const { result } = useShared().view;
  const decimals = decimalsFor(unit, value, resolutionOf(result));
  const own = onsetOf(result);
  const rows = Object.entries(result.spread[id]?.by ?? {}).sort((a, b) => a[1] - b[1]);
  return (
    <table className="by-rule">
      <tbody>
        {own?.byHand && (
          <tr data-own="true">
            <th scope="row">{ruleWords('by-hand')}</th>
            <td className="number">{secondsText(own.index, result.sampleRate)} s</td>
            <td className="number">{numberText(value, decimals)}</td>
          </tr>
        )}
        {rows.map(([rule, one]) => {
          const onset = result.onsets[rule];
          return (
            <tr key={rule} data-own={rule === own?.rule && !own.byHand}>
              <th scope="row">{ruleWords(rule)}</th>
              <td className="number">{onset?.ok ? `${secondsText(onset.value.index, result.sampleRate)} s` : ''}</td>
              <td className="number">
                {numberText(one, decimals)} {unitText(unit)}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
