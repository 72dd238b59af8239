import type { SessionView } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { Link } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { useSetupFieldsOf } from '../../data/protocols.ts';
import { numberText } from '../../number/format.ts';
import { protocolWords } from '../../words/protocols.ts';
import { sessionWords } from '../../words/session-list.ts';
import { testTitle } from '../trial/test-title.ts';

/** Body weight, gravity, notes and every setup field, as facts. */
export function SessionFacts({ session }: { session: SessionView }) {
  const t = sessionWords.session;
  const lab = useLab() ?? 'lab';
  const { bodyWeight, gravity } = session;
  const withoutWeight = protocolRegistry.get(session.protocol)?.load === 'none';
  const fields = useSetupFieldsOf(lab, session);
  const known = fields.filter(({ id }) => session.setup[id] !== undefined);
  const unknown = Object.keys(session.setup).filter((id) => !fields.some((field) => field.id === id));
  return (
    <section className="session-facts" aria-labelledby="session-facts">
      <h2 id="session-facts">{t.facts}</h2>
      <dl className="facts">
        {!withoutWeight && (
          <Fact name={t.bodyWeight}>
            {bodyWeight ? (
              <>
                <span className="number">{numberText(bodyWeight.value, 0)}&nbsp;N</span>
                <span className="soft">
                  {' '}
                  ({t.mass(numberText(bodyWeight.value / gravity, 1))}), {t.from[bodyWeight.from] ?? bodyWeight.from}
                  {session.weighedIn && (
                    <>
                      {' '}
                      <Link to={`/${lab}/sessions/${session.weighedIn.id}`}>
                        {t.weighedIn(testTitle(session.weighedIn.protocol))}
                      </Link>
                    </>
                  )}
                </span>
              </>
            ) : (
              <span className="soft">{t.eachTrial}</span>
            )}
          </Fact>
        )}
        {session.ranBy && (
          <Fact name={protocolWords.session.ranBy}>
            <Link to={`/${lab}/protocols/${session.ranBy.sha256}`}>
              {protocolWords.choice.option(session.ranBy.name, session.ranBy.version)}
            </Link>
          </Fact>
        )}
        <Fact name={t.gravity}>
          <span className="number">{gravity}&nbsp;m/s²</span>
        </Fact>
        {known.map((field) => (
          <Fact key={field.id} name={field.title}>
            {say(session.setup[field.id])}
            {field.unit ? `\u00a0${field.unit === 'deg' ? '°' : field.unit}` : ''}
          </Fact>
        ))}
        {unknown.map((id) => (
          <Fact key={id} name={id}>
            {say(session.setup[id])}
          </Fact>
        ))}
        {session.notes !== '' && <Fact name={t.notes}>{session.notes}</Fact>}
      </dl>
      {known.length + unknown.length === 0 && <p className="small soft">{t.noSetup}</p>}
    </section>
  );
}

function Fact({ name, children }: { name: string; children: React.ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

const say = (value: string | number | boolean | undefined) =>
  value === true ? sessionWords.session.yes : value === false ? sessionWords.session.no : String(value ?? '');
