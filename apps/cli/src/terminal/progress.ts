import type { Terminal } from './terminal.ts';

/** A progress line on stderr, redrawn only on a terminal; silent for a single file. */
export function progress(
  terminal: Terminal,
  total: number,
): { step(words: string): void; say(text: string): void; end(): void } {
  const shown = terminal.lively && total > 1;
  let done = 0;
  const clear = () => shown && terminal.err('\r\u001b[K');
  return {
    step(words) {
      done += 1;
      if (shown) terminal.err(`\r\u001b[K${done} of ${total}  ${words.slice(-60)}`);
    },
    say(text) {
      clear();
      terminal.err(text);
    },
    end: () => void clear(),
  };
}
