import { findPostgres } from './postgres.ts';

/** One PostgreSQL for all test files of a run, unless one is given: to set one up takes longer than the tests of most files. */
export default async function setup(): Promise<(() => Promise<void>) | undefined> {
  if (process.env.STHENE_TEST_POSTGRES) return undefined;
  const postgres = findPostgres();
  if (!postgres.available) return undefined;
  const server = await postgres.start();
  process.env.STHENE_TEST_POSTGRES = server.connection;
  return () => server.stop();
}
