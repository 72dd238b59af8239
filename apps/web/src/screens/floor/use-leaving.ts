import { useEffect, useRef } from 'react';

/**
 * Asks before the page is left while an effort is under way: closing and reloading by the browser's own question, the way back
 * by a step of history that is caught here.
 */
export function useLeaving(underWay: boolean, ask: () => void): void {
  const latest = useRef(ask);
  latest.current = ask;
  useEffect(() => {
    if (!underWay) return;
    const unload = (event: BeforeUnloadEvent) => event.preventDefault();
    const back = () => {
      // The step just taken back is laid again, so that the next one is caught too.
      history.pushState(history.state, '', location.href);
      latest.current();
    };
    history.pushState(history.state, '', location.href);
    addEventListener('beforeunload', unload);
    addEventListener('popstate', back);
    return () => {
      removeEventListener('beforeunload', unload);
      removeEventListener('popstate', back);
    };
  }, [underWay]);
}
