import type { FastifyInstance } from 'fastify';

interface Described {
  readonly paths?: Readonly<
    Record<
      string,
      Readonly<
        Record<
          string,
          {
            readonly summary?: string;
            readonly parameters?: readonly {
              readonly name: string;
              readonly in: string;
              readonly required?: boolean;
            }[];
          }
        >
      >
    >
  >;
}

/**
 * `/api/openapi.json` for programs and `/api` for people: a plain page without script, so that the content policy needs no
 * exception.
 */
export function registerApiPage(server: FastifyInstance): void {
  server.get('/api/openapi.json', { schema: { hide: true } }, async () => server.swagger());
  server.get('/api', { schema: { hide: true } }, async (_request, reply) =>
    reply.type('text/html; charset=utf-8').send(page(server.swagger() as Described)),
  );
  server.get('/api/page.css', { schema: { hide: true } }, async (_request, reply) =>
    reply.type('text/css').send(style),
  );
}

function page(description: Described): string {
  const rows = Object.entries(description.paths ?? {}).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => {
      const parameters = (operation.parameters ?? [])
        .map((one) => `${one.name}${one.required ? '' : '?'} (${one.in})`)
        .join(', ');
      return `<tr><th scope="row"><code>${escaped(method.toUpperCase())} ${escaped(path)}</code></th><td>${escaped(operation.summary ?? '')}</td><td>${escaped(parameters)}</td></tr>`;
    }),
  );
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Sthene station: interface</title><link rel="stylesheet" href="/api/page.css"></head><body><main><h1>Sthene station: interface</h1><p>Every address the screens use, on this machine only. The full description with all schemas is <a href="/api/openapi.json">openapi.json</a>; refusals are problem details (RFC 9457) with a permanent <code>code</code> and a <code>next</code> step.</p><table><thead><tr><th scope="col">Address</th><th scope="col">What it does</th><th scope="col">Parameters</th></tr></thead><tbody>${rows.join('')}</tbody></table></main></body></html>`;
}

const escaped = (text: string) => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

const style = `:root{color-scheme:light dark}body{font:16px/1.5 system-ui,sans-serif;margin:2rem;max-width:70rem}table{border-collapse:collapse}th,td{text-align:left;vertical-align:top;padding:.4rem .8rem .4rem 0;border-bottom:1px solid #8886;font-weight:400}`;
