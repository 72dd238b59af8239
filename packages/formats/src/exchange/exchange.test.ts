import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ExchangeRow,
  exchangeFields,
  exchangeHeader,
  exchangeRecord,
  looksLikeExchange,
  readExchange,
} from './index.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const row: ExchangeRow = {
  lab_id: 'lab-1',
  row_id: 'r-1.peak_force',
  person_id: 'p-1',
  code: 'FW-01',
  session_id: 's-1',
  started_at: '2019-03-01T12:00:00.000Z',
  time_known: false,
  test: 'imtp',
  of: 'trial',
  metric: 'peak_force',
  value: 2481.5,
  unit: 'N',
  application: 'sthene 0.1.0',
};

/** Any text but an empty one, which an absent field is, and half a surrogate pair, which no UTF-8 can hold. */
const text = fc.string({ unit: 'grapheme', minLength: 1 }).filter((one) => !/\p{Surrogate}/u.test(one));
const tricky = fc.constantFrom(
  '=1+1',
  "'=1+1",
  "''@x",
  '+49',
  '-',
  '"quoted", and, "more"',
  'a\r\nb',
  ' edge ',
  '\t',
  "'",
);
const number = fc.double({ noNaN: true, noDefaultInfinity: true });

describe('an exchange file', () => {
  it('gives every row back, bit for bit', async () => {
    const some = fc.record(
      Object.fromEntries(
        exchangeFields.flatMap((field) => {
          if (field.name === 'format') return [];
          const of: fc.Arbitrary<unknown> = ['time_known', 'overruled'].includes(field.name)
            ? fc.boolean()
            : field.type === 'number'
              ? number
              : fc.oneof(text, tricky);
          return [[field.name, 'constraints' in field ? of : fc.option(of, { nil: undefined })]];
        }),
      ) as Record<keyof ExchangeRow, fc.Arbitrary<never>>,
    );
    await fc.assert(
      fc.asyncProperty(fc.array(some, { maxLength: 5 }), async (given) => {
        const rows = given.map((one) =>
          Object.fromEntries(
            Object.entries({ ...one, reason: one.value === undefined ? 'no-effort' : undefined }).filter(
              ([, value]) => value !== undefined,
            ),
          ),
        ) as unknown as ExchangeRow[];
        const read = await readExchange(bytes(exchangeHeader() + rows.map(exchangeRecord).join('')));
        expect(read).toEqual({ ok: true, bad: [], rows: rows.map((one, i) => ({ ...one, at: i + 2 })) });
      }),
    );
  });

  it('guards text that a spreadsheet would run, and only that', async () => {
    const record = exchangeRecord({ ...row, code: '=cmd()', value: -12.5 });
    expect(record).toContain(",'=cmd(),");
    expect(record).toContain(',-12.5,');
  });

  it('is known by its first words, and read with columns added or moved', async () => {
    const header = exchangeHeader().trim().split(',');
    expect(looksLikeExchange(bytes(exchangeHeader()))).toBe(true);
    expect(looksLikeExchange(bytes('name,date\n'))).toBe(false);
    const cells = exchangeRecord(row).trim().split(',');
    const moved = [...header].reverse().concat('later').join(',');
    const read = await readExchange(bytes(`\uFEFF${moved}\n${[...cells].reverse().concat('new').join(',')}\n`));
    expect(read).toEqual({ ok: true, bad: [], rows: [{ ...row, at: 2 }] });
  });

  it('lists a row that breaks a rule, and is refused whole where a column is missing', async () => {
    const broken = [
      { ...row, unit: '' },
      { ...row, reason: 'no-effort' },
      { ...row, value: undefined },
    ].map((one) => exchangeRecord(one as ExchangeRow));
    const wrong = exchangeRecord(row)
      .replace('2481.5', '2481,5')
      .replace(/^sthene.exchange\/1/, 'sthene.exchange/1');
    const read = await readExchange(bytes(exchangeHeader() + broken.join('') + wrong + exchangeRecord(row)));
    expect(read.ok && read.bad.map(({ row: at, column }) => [at, column])).toEqual([
      [2, 'unit'],
      [3, 'value'],
      [4, 'value'],
      [5, expect.any(String)],
    ]);
    expect(read.ok && read.rows).toHaveLength(1);
    expect(await readExchange(bytes('format,lab_id,row_id,code\n'))).toMatchObject({
      error: { code: 'exchange-damaged' },
    });
  });

  it('is read in pieces that never cut a record, whatever its cells hold', async () => {
    const rows = Array.from({ length: 6_000 }, (_, i) => ({
      ...row,
      row_id: `r-${i}`,
      code: i % 7 === 0 ? 'a\n"b"\r\n' : 'FW-01',
    }));
    let pauses = 0;
    const read = await readExchange(bytes(exchangeHeader() + rows.map(exchangeRecord).join('')), async () => {
      pauses++;
    });
    expect(pauses).toBeGreaterThan(1);
    expect(read).toEqual({ ok: true, bad: [], rows: rows.map((one, i) => ({ ...one, at: i + 2 })) });
  });
});
