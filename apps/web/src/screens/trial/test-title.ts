import { protocolRegistry } from '@sthene/core';

/** Title of a test; one this page does not know keeps its id. */
export const testTitle = (id: string): string => protocolRegistry.get(id)?.title ?? id.replaceAll('-', ' ');
