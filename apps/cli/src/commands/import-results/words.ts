import type { ReceivedOutcome, TablePreview } from '@sthene/contract';
import { printable } from '../../terminal/terminal.ts';

const count = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;
const listed = 20;

/** What was imported, or would be: who, what not and why, as a few lines. */
export function outcomeWords(preview: TablePreview, outcome: ReceivedOutcome): string {
  const lines = [
    `${outcome.dryRun ? 'Would import' : 'Imported'} ${count(outcome.values, 'value')} as ${count(outcome.sessions, 'session')} without curves, of ${count(preview.rowCount, 'row')}.`,
  ];
  if (outcome.import !== undefined) lines.push(`import  ${outcome.import}`);
  for (const one of outcome.same)
    lines.push(
      `note  this very file was brought in on ${one.importedAt.slice(0, 10)}${one.takenBack ? ' and taken back' : ''}`,
    );
  if (outcome.missing > 0) lines.push(`empty  ${count(outcome.missing, 'cell')}`);
  if (outcome.notTaken > 0)
    lines.push(`not taken  ${count(outcome.notTaken, 'value')} of people who are undecided or left out`);
  for (const { said, values, match, candidates } of outcome.people) {
    const who = candidates.map(({ code, name, why }) => `${code} ${name} (${why})`).join(', ');
    lines.push(printable(`${match.padEnd(8)}  ${said}, ${count(values, 'value')}${who === '' ? '' : `: ${who}`}`));
  }
  for (const { name, values } of outcome.leftOut) lines.push(printable(`left out  ${name}, ${count(values, 'value')}`));
  for (const { row, person, day, metric, value, unit, where } of outcome.duplicates.slice(0, listed))
    lines.push(printable(`there already  row ${row}: ${person}, ${day}, ${metric} ${value} ${unit} (${where})`));
  if (outcome.duplicateCount > listed) lines.push(`there already  ${count(outcome.duplicateCount, 'value')} in all`);
  for (const { code, row, column, found, next } of outcome.refused.slice(0, listed))
    lines.push(
      printable(`refused  row ${row}${column === undefined ? '' : `, column ${column}`}: "${found}" [${code}] ${next}`),
    );
  if (outcome.refusedCount > listed)
    lines.push(
      `refused  ${count(outcome.refusedCount, 'cell or row', 'cells and rows')} in all; --json lists up to 500`,
    );
  return `${lines.join('\n')}\n`;
}
