import { parseSourceDescription, sourceNextStep } from '@sthene/capture';
import type { SourceCheck } from '@sthene/contract';

/** What is wrong with a description, field by field; nothing is opened. */
export function checkSource(description: unknown): SourceCheck {
  const parsed = parseSourceDescription(description);
  if (parsed.ok) return { ok: true, faults: [] };
  return {
    ok: false,
    faults: parsed.problems.map(({ at, code, message, expected, found }) => ({
      // As fields are named in a form: transport.port, channels.1.scale.
      path: at.slice(1).replaceAll('/', '.'),
      code,
      words: [message, expected && `Expected: ${expected}.`, found !== undefined && `Found: ${found}.`]
        .filter(Boolean)
        .join(' '),
      next: sourceNextStep(code),
    })),
  };
}
