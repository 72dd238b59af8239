import { curveOf } from './curve.ts';
import { lookAt } from './look.ts';
import type { CurveAnswer, Look, Reply, Request } from './messages.ts';

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

const answer = (request: Request): Promise<Look | CurveAnswer> =>
  request.ask === 'look' ? lookAt(request.file, request.reading) : curveOf(request);

function buffersOf(value: Look | CurveAnswer): Transferable[] {
  if (!('ok' in value) || !value.ok) return [];
  const { total, left, right } = value.curve;
  return [total, left, right].flatMap((one) => (one === undefined ? [] : [one.buffer as ArrayBuffer]));
}
