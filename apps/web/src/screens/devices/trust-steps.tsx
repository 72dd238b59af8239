import { accessRoutes, addressOf } from '@sthene/contract';
import { deviceWords } from '../../words/devices.ts';

const t = deviceWords.trust;
type System = keyof typeof t.systems;
const systems = Object.keys(t.systems) as System[];

/** How each system is told to trust the station. `mine` stands open; on the station nothing does. */
export function TrustSteps({ mine }: { mine?: System | undefined }) {
  return (
    <div className="trust-steps">
      {systems.map((system) => (
        <details key={system} open={system === mine}>
          <summary>{t.systems[system]}</summary>
          <ol>
            {t.steps[system].map((step) => (
              <li key={step}>{step === 'COMPARE' ? <b>{t.compareThere}</b> : step}</li>
            ))}
          </ol>
        </details>
      ))}
      <details>
        <summary>{t.fallback}</summary>
        {t.fallbackText.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </details>
    </div>
  );
}

/** The certificate of the authority, in both forms. */
export function TrustFiles() {
  return (
    <div className="acts">
      <a className="button" href={addressOf(accessRoutes.authorityProfile)} download="sthene-authority.mobileconfig">
        {t.profile}
      </a>
      <a className="button" href={addressOf(accessRoutes.authorityFile)} download="sthene-authority.crt">
        {t.crt}
      </a>
    </div>
  );
}

/** The system of this browser, as well as it can be told: an iPad calls itself a Mac, but has a touch screen. */
export function systemOf(agent: string, touchPoints: number): System {
  if (/iPhone|iPad/.test(agent) || (/Macintosh/.test(agent) && touchPoints > 1)) return 'apple';
  if (/Android/.test(agent)) return 'android';
  if (/Windows/.test(agent)) return 'windows';
  return /Macintosh/.test(agent) ? 'mac' : 'linux';
}
