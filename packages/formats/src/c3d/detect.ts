import type { Detection } from '../format.ts';
import { blockSize } from './header.ts';
import { processorOf } from './numbers.ts';

/**
 * Whether bytes look like C3D: 50 (hex) as the second byte and a known processor type in the parameter section, if the head
 * reaches that far.
 */
export function detectC3d(head: Uint8Array, length: number, name: string): Detection {
  const named = name.toLowerCase().endsWith('.c3d');
  if (length === 0 || head.length < 2) {
    return named
      ? { match: 'damaged', reason: 'The name says C3D but the file is empty.', at: { byte: 0 } }
      : { match: 'no', reason: 'Too short for a C3D header.' };
  }
  if (head[1] !== 0x50 || head[0] === 0) {
    return named
      ? { match: 'damaged', reason: 'The name says C3D but the second byte is not 50 (hex).', at: { byte: 1 } }
      : { match: 'no', reason: 'The second byte is not 50 (hex).' };
  }
  const processorAt = ((head[0] as number) - 1) * blockSize + 3;
  if (length <= processorAt || length < blockSize) {
    return {
      match: named ? 'damaged' : 'no',
      reason: `The parameter section should begin at byte ${processorAt - 3}, past the end of the file.`,
      at: { byte: length },
    };
  }
  if (head.length <= processorAt) {
    return { match: named ? 'yes' : 'maybe', reason: 'The second byte is 50 (hex), as in C3D.', at: { byte: 1 } };
  }
  if (processorOf(head[processorAt] as number) === null) {
    return {
      match: named ? 'damaged' : 'no',
      reason: `Processor type ${head[processorAt]} is not one of C3D (84, 85, 86).`,
      at: { byte: processorAt },
    };
  }
  return { match: 'yes', reason: 'C3D header and parameter section with a known processor type.', at: { byte: 1 } };
}
