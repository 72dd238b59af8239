import { useEffect } from 'react';
import { words } from '../words/index.ts';

/** Names the browser tab. Pages with people give no name here: titles end up in histories and on shared screens. */
export function usePageTitle(title: string): void {
  useEffect(() => {
    document.title = `${title} \u00b7 ${words.app.name}`;
  }, [title]);
}
