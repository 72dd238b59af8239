import type { Decision } from '@sthene/contract';
import { useSetupFieldsOf } from '../../data/protocols.ts';
import { numberText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { words } from '../../words/index.ts';
import { cueWords } from './cue-words.ts';
import { revertedNow, subjectOf } from './history.ts';
import { secondsText, writerOf } from './numbers.ts';
import { setupWords } from './setup-words.ts';
import { useShared } from './trial-context.ts';
import './decisions.css';

/** What people decided, newest first, nothing hidden; then where the result comes from. */
export function DecisionsSection({ current }: { current: boolean }) {
  const { view } = useShared();
  const t = words.decisions;
  const takenBack = revertedNow(view.decisions);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: on wide screens this section scrolls by itself
    <section tabIndex={0} className="beside-section decisions" data-current={current} aria-label={t.title}>
      <h2>{t.title}</h2>
      {view.decisions.length === 0 && <p className="soft">{t.none}</p>}
      <ol>
        {[...view.decisions].reverse().map((one) => (
          <Entry key={one.id} decision={one} all={view.decisions} takenBack={takenBack.has(one.id)} />
        ))}
      </ol>
      <Provenance />
    </section>
  );
}

function Entry({ decision, all, takenBack }: { decision: Decision; all: readonly Decision[]; takenBack: boolean }) {
  const { result } = useShared().view;
  const t = words.decisions;
  const what = subjectOf(decision, all);
  return (
    <li className="decision" data-taken-back={takenBack}>
      <p className="decision-what">
        <span>{what === decision ? t.kinds[decision.kind] : t.of(t.kinds[decision.kind], t.kinds[what.kind])}</span>
        {decision.index !== undefined && (
          <span className="number">{t.at(secondsText(decision.index, result.sampleRate))}</span>
        )}
        {takenBack && <em className="small">{t.takenBack}</em>}
      </p>
      {decision.reason !== '' && decision.reason !== decision.kind && <p>{decision.reason}</p>}
      <p className="small soft">
        {decision.by}, <time dateTime={decision.at}>{whenText(decision.at)}</time>
      </p>
    </li>
  );
}

function Provenance() {
  const { lab, view, notices } = useShared();
  const { recording, provenance, result, session } = view;
  const t = words.decisions;
  const write = writerOf(result);
  const setup = setupWords(result.test, session.setup, useSetupFieldsOf(lab, session));
  const facts: [string, string, string?][] = [
    [
      words.explain.method,
      `${provenance.method.name} ${provenance.method.version}, ${provenance.method.sha256.slice(0, 12)}`,
      provenance.method.sha256,
    ],
    [t.application, provenance.application],
    [t.computedAt, whenText(provenance.computedAt)],
    [
      t.bodyWeight,
      result.bodyWeight.ok
        ? `${write(result.bodyWeight.value.value, result.bodyWeight.value.unit)}, ${t.weightFrom[result.bodyWeight.value.from]}`
        : (words.reasons[result.bodyWeight.reason] ?? result.bodyWeight.reason),
    ],
    ...(view.cueHeard === undefined ? [] : [[t.cue.title, cueWords(view.cueHeard)] as [string, string]]),
    [t.gravity, `${result.gravity} m/s\u00b2`],
    [t.file, recording.fileName],
    [t.format, recording.format],
    [t.recording, recording.sha256.slice(0, 12), recording.sha256],
    [
      t.rate,
      `${numberText(recording.sampleRate, recording.sampleRate % 1 === 0 ? 0 : 2)} Hz, ${t.samples(numberText(recording.sampleCount, 0))}`,
    ],
    [t.imported, whenText(recording.importedAt)],
  ];
  return (
    <div className="provenance small">
      <h2>{t.computed}</h2>
      <dl>
        {facts.map(([name, value, title]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd title={title}>{value}</dd>
          </div>
        ))}
        {setup.length > 0 && (
          <div>
            <dt>{t.setup}</dt>
            <dd>{setup.join('; ')}</dd>
          </div>
        )}
        {notices.length > 0 && (
          <div>
            <dt>{t.notices}</dt>
            <dd>{notices.map((notice) => notice.message).join(' ')}</dd>
          </div>
        )}
      </dl>
    </div>
  );
}
