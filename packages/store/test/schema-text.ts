import type { Place } from './engines.ts';

/** The schema of a database as text, in a fixed order, for comparison with the one checked in. */
export async function schemaText(place: Place): Promise<string> {
  return place.kind === 'sqlite' ? sqliteSchema(place) : postgresSchema(place);
}

async function sqliteSchema(place: Place): Promise<string> {
  const rows = await place.run('select type, sql from sqlite_master where sql is not null order by type desc, name');
  return rows.map((row) => `${(row as { sql: string }).sql.replace(/\n {6,}/g, '\n  ')};\n`).join('\n');
}

/** PostgreSQL cannot print a table; its catalogue is asked for each part. */
async function postgresSchema(place: Place): Promise<string> {
  const ask = async (text: string) => (await place.run(text)) as { line: string; owner?: string }[];
  const columns = await ask(`
    select c.relname as owner, a.attname || ' ' || format_type(a.atttypid, a.atttypmod)
      || case when co.collname = 'default' or co.collname is null then '' else ' collate "' || co.collname || '"' end
      || case when a.attnotnull then ' not null' else '' end as line
    from pg_attribute a join pg_class c on c.oid = a.attrelid
      left join pg_collation co on co.oid = a.attcollation
    where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and a.attnum > 0 and not a.attisdropped
    order by c.relname, a.attnum`);
  const constraints = await ask(`
    select conrelid::regclass::text as owner, 'constraint ' || conname || ' ' || pg_get_constraintdef(oid) as line
    from pg_constraint where connamespace = 'public'::regnamespace order by 1, conname`);
  const rest = [
    ...(await ask(`
      select indexdef || ';' as line from pg_indexes where schemaname = 'public'
        and indexname not in (select conname from pg_constraint) order by indexname`)),
    ...(await ask(`
      select pg_get_functiondef(oid) || ';' as line from pg_proc
      where pronamespace = 'public'::regnamespace order by proname`)),
    ...(await ask(`
      select pg_get_triggerdef(oid) || ';' as line from pg_trigger where not tgisinternal order by tgname`)),
  ];
  const tables = [...new Set(columns.map(({ owner }) => owner))].map((owner) => {
    const lines = [...columns, ...constraints].filter((part) => part.owner === owner).map(({ line }) => `  ${line}`);
    return `create table ${owner} (\n${lines.join(',\n')}\n);\n`;
  });
  return [...tables, ...rest.map(({ line }) => `${line.trim()}\n`)].join('\n');
}
