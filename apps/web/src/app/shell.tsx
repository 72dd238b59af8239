import { routes } from '@sthene/contract';
import type { ReactNode } from 'react';
import { Link, NavLink, useLocation } from 'react-router';
import { onStation, useMay } from '../data/access.ts';
import { useStation } from '../data/queries.ts';
import { Icon } from '../parts/icon.tsx';
import { StatusLine } from '../parts/status.tsx';
import { deviceWords } from '../words/devices.ts';
import { words } from '../words/index.ts';
import { Boundary } from './boundary.tsx';
import { useLab } from './lab.ts';
import { SignedAs } from './signed-as.tsx';
import { ThemeSwitch } from './theme-switch.tsx';
import '../parts/button.css';
import '../parts/menu.css';
import './shell.css';

/** The frame of every page: one strip with the name, where one can go, whose data this is, and who signs. */
export function Shell({ children }: { children: ReactNode }) {
  const lab = useLab();
  const { pathname } = useLocation();
  const at = lab ?? 'lab';
  const may = useMay();
  return (
    <>
      <a className="skip" href="#page">
        {words.app.skip}
      </a>
      <header className="strip">
        <Link to="/" className="brand">
          sthene<i aria-hidden="true">.</i>
        </Link>
        <nav className="places" aria-label={words.app.nav}>
          <NavLink to="/" end>
            {words.app.start}
          </NavLink>
          <NavLink to={`/${at}/day`}>{words.app.day}</NavLink>
          <NavLink to={`/${at}/floor`}>{words.app.floor}</NavLink>
          <NavLink to={`/${at}/wall`}>{words.app.wall}</NavLink>
          <NavLink to={`/${at}/rig`}>{words.app.rig}</NavLink>
          <NavLink to={`/${at}/sessions`} {...(pathname.includes('/trials/') ? { className: 'active' } : {})}>
            {words.app.sessions}
          </NavLink>
          <NavLink
            to={`/${at}/athletes`}
            {...(/^\/\w+\/(today|before|reliability|norms|methods|blind|reports)(\/|$)/.test(pathname)
              ? { className: 'active' }
              : {})}
          >
            {words.app.athletes}
          </NavLink>
          <NavLink to={`/${at}/protocols`}>{words.app.protocols}</NavLink>
          {may(routes.import) && <NavLink to={`/${at}/import`}>{words.app.import}</NavLink>}
        </nav>
        <LabName lab={lab} />
        <div className="strip-end">
          {onStation() && (
            <Link
              className="button quiet"
              to={`/${at}/devices`}
              title={deviceWords.title}
              aria-label={deviceWords.title}
            >
              <Icon name="device" />
              <span className="menu-words">{deviceWords.title}</span>
            </Link>
          )}
          <SignedAs />
          <ThemeSwitch />
        </div>
      </header>
      <main id="page" tabIndex={-1}>
        <StatusLine>
          <Boundary at={pathname}>{children}</Boundary>
        </StatusLine>
      </main>
    </>
  );
}

function LabName({ lab }: { lab: 'lab' | 'example' | undefined }) {
  const station = useStation();
  if (!lab) return <span />;
  const name = station.data?.labs.find((one) => one.id === lab)?.name;
  return (
    <span className="lab-name">
      {name ?? ''}
      {lab === 'example' && (
        <abbr className="example-mark" title={words.app.exampleLong}>
          {words.app.example}
        </abbr>
      )}
    </span>
  );
}
