import type { z } from 'zod';
import { type Problem, problem } from './problem.ts';
import type { Route } from './routes.ts';

/** A refusal of the station, as data. */
export class ApiProblem extends Error {
  readonly problem: Problem;
  constructor(data: Problem) {
    super(data.detail);
    this.name = 'ApiProblem';
    this.problem = data;
  }
}

/** The part of `fetch` the client needs; tests and the command line pass their own. */
export type Fetch = (
  url: string,
  init: { method: string; headers: Record<string, string>; body?: BodyInit },
) => Promise<Response>;

export interface Call<P, Q, B> {
  readonly params?: P;
  readonly query?: Q;
  readonly body?: B;
  /** Raw bytes instead of a JSON body. */
  readonly bytes?: Blob | Uint8Array<ArrayBuffer>;
}

/** Calls a route and validates the answer. Throws ApiProblem on a refusal, with code `station-unreachable` when there is no answer. */
export async function call<P, Q, B, R>(
  fetcher: Fetch,
  base: string,
  route: Route<P, Q, B, R>,
  input: Call<P, Partial<Q>, B> = {},
): Promise<R> {
  const response = await send(fetcher, base, route as Route, input as Call<unknown, unknown, unknown>);
  return (route.response as z.ZodType<R>).parse(await response.json());
}

/** Calls a route whose answer is bytes. */
export async function callForBytes<P, Q, B, R>(
  fetcher: Fetch,
  base: string,
  route: Route<P, Q, B, R>,
  input: Call<P, Partial<Q>, B> = {},
): Promise<ArrayBuffer> {
  return (await send(fetcher, base, route as Route, input as Call<unknown, unknown, unknown>)).arrayBuffer();
}

/** The address of a route, for links and downloads. */
export function addressOf(route: Route, params: unknown = {}, query: unknown = {}): string {
  const values = params as Record<string, string>;
  const path = route.path.replace(/:(\w+)/g, (_, name: string) => encodeURIComponent(values[name] ?? ''));
  const search = new URLSearchParams();
  for (const [name, value] of Object.entries(query as Record<string, unknown>))
    if (value !== undefined) search.set(name, String(value));
  const text = search.toString();
  return text ? `${path}?${text}` : path;
}

async function send(
  fetcher: Fetch,
  base: string,
  route: Route,
  input: Call<unknown, unknown, unknown>,
): Promise<Response> {
  const headers: Record<string, string> = { accept: 'application/json' };
  let body: BodyInit | undefined;
  if (input.bytes !== undefined) {
    headers['content-type'] = 'application/octet-stream';
    body = input.bytes;
  } else if (input.body !== undefined) {
    headers['content-type'] = 'application/json';
    body = JSON.stringify(input.body);
  }
  let response: Response;
  try {
    response = await fetcher(base + addressOf(route, input.params, input.query), {
      method: route.method,
      headers,
      ...(body === undefined ? {} : { body }),
    });
  } catch {
    throw new ApiProblem({
      type: 'about:blank',
      title: 'The station does not answer',
      status: 0,
      code: 'station-unreachable',
      detail: 'The station does not answer.',
      next: 'What was saved is safe. Check that the station is still running, then try again.',
    });
  }
  if (response.ok) return response;
  const data = problem.safeParse(await response.json().catch(() => undefined));
  throw new ApiProblem(
    data.success
      ? data.data
      : {
          type: 'about:blank',
          title: 'Unexpected answer',
          status: response.status,
          code: 'station-unexpected-answer',
          detail: `The station answered with status ${response.status}.`,
          next: "Try again; if it stays, look into the station's log.",
        },
  );
}
