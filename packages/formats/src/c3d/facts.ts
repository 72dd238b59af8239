import { numbersOf, type Parameter, stringsOf } from './parameters.ts';

/** Groups whose contents become channels, platforms and events and need no second telling. */
const structural = new Set(['POINT', 'ANALOG', 'FORCE_PLATFORM', 'EVENT', 'STHENE']);

/** Single parameters of those groups that a person or the writer may want to know. */
const kept = new Set(['POINT:RATE', 'FORCE_PLATFORM:ZERO']);

const mostFacts = 200;
const longestFact = 500;

/** Text without control characters; damaged files carry rubbish in theirs. */
const printable = (text: string): boolean => !/[\p{Cc}\p{Cn}\uFFFD]/u.test(text);

/** Short parameters of all other groups (manufacturer, subject, trial ...) as `GROUP:NAME` and text, at most 200. */
export function factsOf(parameters: ReadonlyMap<string, Parameter>): Record<string, string> {
  const facts: [string, string][] = [];
  for (const [key, parameter] of parameters) {
    if (facts.length >= mostFacts) break;
    if (structural.has(key.split(':')[0] as string) && !kept.has(key)) continue;
    const parts = parameter.type === -1 ? stringsOf(parameter) : numbersOf(parameter).map(String);
    const text = parts.filter((part) => part !== '').join(parameter.type === -1 ? '; ' : ' ');
    if (text === '' || text.length > longestFact || !printable(text) || !printable(key)) continue;
    facts.push([key, text]);
  }
  return Object.fromEntries(facts);
}
