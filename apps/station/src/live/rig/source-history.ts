import type { SourceRevision } from '@sthene/contract';
import type { StoredSource } from '@sthene/store';
import { problems } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';

/** Every state of a source description, newest first. */
export async function sourceHistory({ lab }: LiveLab, id: string): Promise<SourceRevision[]> {
  const revisions = await lab.store.revisions.of<StoredSource>('source', id);
  if (revisions.length === 0) throw problems.notFound('source');
  const states = revisions.map(async ({ number, at, by, state }) => ({
    number,
    at,
    by: await lab.nameOf(by),
    description: state.description as SourceRevision['description'],
  }));
  return (await Promise.all(states)).reverse();
}
