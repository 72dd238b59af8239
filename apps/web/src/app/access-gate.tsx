import { lazy, type ReactNode, Suspense } from 'react';
import { Navigate, useLocation } from 'react-router';
import { homeOf, onStation, useAccess } from '../data/access.ts';
import { ProblemCard } from '../parts/problem-card.tsx';
import { words } from '../words/index.ts';

const PairScreen = lazy(() => import('../screens/devices/pair.ts'));

/**
 * On the station everything is shown. On another machine only what its pairing allows is: nothing before it is paired, the wall
 * alone on a wall. The station decides all of this itself for every request; here nobody is led to where they get no answer.
 */
export function AccessGate({ children }: { children: ReactNode }) {
  return onStation() ? children : <FromNetwork>{children}</FromNetwork>;
}

function FromNetwork({ children }: { children: ReactNode }) {
  const { pathname } = useLocation();
  const access = useAccess();
  if (access.data === undefined)
    return access.isError ? (
      <main className="page">
        <ProblemCard error={access.error} onRetry={() => void access.refetch()} page />
      </main>
    ) : (
      <Waiting />
    );
  const { device } = access.data;
  if (device === undefined || pathname === '/pair')
    return (
      <Suspense fallback={<Waiting />}>
        <PairScreen />
      </Suspense>
    );
  const elsewhere = pathname === '/' || !pathname.startsWith(`/${device.lab}`);
  const notForWalls = device.role === 'wall' && !/^\/\w+\/wall\/./.test(pathname);
  if (elsewhere || notForWalls) return <Navigate to={homeOf(device)} replace />;
  return children;
}

const Waiting = () => (
  <p className="waiting" role="status">
    {words.app.loading}
  </p>
);
