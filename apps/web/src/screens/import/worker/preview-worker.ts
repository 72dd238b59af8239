import { curveOf } from './curve.ts';
import { lookAt } from './look.ts';
import type { CurveAnswer, Look, Reply, Request, SuggestAnswer } from './messages.ts';
import { suggestFor } from './suggest.ts';

const port = self as unknown as {
  onmessage: ((event: MessageEvent<Request>) => void) | null;
  postMessage(reply: Reply, transfer: Transferable[]): void;
};

// Files are read here, so that a large one never stops the page.
port.onmessage = ({ data }) => {
  answer(data).then(
    (value) => port.postMessage({ id: data.id, ok: true, value }, buffersOf(value)),
    (error: unknown) =>
      port.postMessage({ id: data.id, ok: false, message: error instanceof Error ? error.message : String(error) }, []),
  );
};

function answer(request: Request): Promise<Look | CurveAnswer | SuggestAnswer> {
  if (request.ask === 'look') return lookAt(request.file, request.reading);
  return request.ask === 'curve' ? curveOf(request) : suggestFor(request);
}

function buffersOf(value: Look | CurveAnswer | SuggestAnswer): Transferable[] {
  if (!('ok' in value) || !value.ok) return [];
  const { total, left, right } = value.curve;
  return [total, left, right].flatMap((one) => (one === undefined ? [] : [one.buffer as ArrayBuffer]));
}
