import { useEffect, useId, useState } from 'react';
import { Link, useLocation } from 'react-router';
import { usePageTitle } from '../../app/page-title.ts';
import { homeOf, onStation, useAccess, usePair } from '../../data/access.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { deviceWords } from '../../words/devices.ts';
import { systemOf, TrustFiles, TrustSteps } from './trust-steps.tsx';
import '../../parts/button.css';
import '../../parts/form.css';
import './devices.css';

const t = deviceWords.join;

/** What a device shows until it is paired, and when it was taken off. */
export function PairScreen() {
  usePageTitle(t.title);
  const { data: access } = useAccess();
  if (onStation())
    return (
      <section className="page live-page pair-page">
        <h1>{t.title}</h1>
        <p>{t.isStation}</p>
        <Link className="button" to="/lab/devices">
          {t.isStationNext}
        </Link>
      </section>
    );
  const device = access?.device;
  return (
    <main className="page live-page pair-page" id="page">
      <p className="pair-brand">
        sthene<i aria-hidden="true">.</i>
      </p>
      {device ? (
        <>
          <h1>{t.joined(device.name)}</h1>
          <p>
            <b>{deviceWords.roles[device.role]}.</b> {deviceWords.roleHelp[device.role]}
          </p>
          <div className="acts">
            <Link className="button main" to={homeOf(device)}>
              {t.go}
            </Link>
          </div>
        </>
      ) : (
        <Join revoked={access?.revoked === true} />
      )}
    </main>
  );
}

function Join({ revoked }: { revoked: boolean }) {
  const { hash } = useLocation();
  const scanned = decodeURIComponent(hash.slice(1));
  const [code, setCode] = useState(scanned);
  const [empty, setEmpty] = useState(false);
  const pair = usePair();
  const id = useId();
  // A code in the address would stay in the history of the browser.
  useEffect(() => {
    if (scanned === '') return;
    setCode(scanned);
    history.replaceState(history.state, '', location.pathname);
  }, [scanned]);
  return (
    <>
      <h1>{revoked ? t.revokedTitle : t.title}</h1>
      <p>{revoked ? t.revokedText : t.lead}</p>
      <form
        className="join-form"
        onSubmit={(event) => {
          event.preventDefault();
          setEmpty(code.trim() === '');
          if (code.trim() !== '') pair.mutate(code);
        }}
      >
        <div className="field">
          <label htmlFor={id}>{t.code}</label>
          <input
            id={id}
            className="number pair-code"
            value={code}
            maxLength={20}
            autoCapitalize="characters"
            autoComplete="off"
            spellCheck={false}
            aria-invalid={empty || pair.isError}
            onChange={(event) => setCode(event.target.value)}
          />
          {empty && (
            <p className="field-error" role="alert">
              {t.empty}
            </p>
          )}
          {scanned !== '' && code === scanned && <p className="small soft">{t.ready}</p>}
        </div>
        <button type="submit" className="button main" disabled={pair.isPending}>
          {pair.isPending ? t.joining : t.act}
        </button>
      </form>
      {pair.isError && <ProblemCard error={pair.error} />}
      <section className="pair-trust" aria-labelledby="warns">
        <h2 id="warns">{t.warns}</h2>
        <p className="small soft">{deviceWords.trust.devicesLead}</p>
        <TrustSteps mine={systemOf(navigator.userAgent, navigator.maxTouchPoints)} />
        <TrustFiles />
      </section>
    </>
  );
}
