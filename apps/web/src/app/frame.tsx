import type { ReactNode } from 'react';
import { useLocation } from 'react-router';
import { Boundary } from './boundary.tsx';
import { Shell } from './shell.tsx';

/** Floor, wall and camera fill the window; every other page stands in the frame. */
export function Frame({ children }: { children: ReactNode }) {
  const { pathname } = useLocation();
  return /^\/\w+\/(floor|wall|camera)\//.test(pathname) ? (
    <Boundary at={pathname}>{children}</Boundary>
  ) : (
    <Shell>{children}</Shell>
  );
}
