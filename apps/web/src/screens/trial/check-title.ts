import { checkFacts } from '@sthene/core';

/** Title of a check; one this page does not know keeps its id. */
export const checkTitle = (id: string): string => checkFacts.get(id)?.title ?? id.replaceAll('_', ' ');
