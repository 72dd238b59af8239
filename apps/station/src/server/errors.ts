import { StoreError } from '@sthene/store';
import type { FastifyInstance } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import { ProblemError, problems } from './problem-error.ts';

/** Every refusal leaves as problem details; what was not foreseen leaves without its inside. */
export function answerProblems(server: FastifyInstance): void {
  server.setErrorHandler((error, request, reply) => {
    const refusal = asProblem(error);
    if (refusal.status >= 500) request.log.error({ err: error, route: request.routeOptions.url }, 'unexpected error');
    return reply
      .code(refusal.status)
      .type('application/problem+json')
      .send(refusal.toProblem(request.url.split('?')[0] ?? ''));
  });
  server.setNotFoundHandler((request, reply) => {
    const refusal = problems.notFound('address');
    return reply
      .code(404)
      .type('application/problem+json')
      .send(refusal.toProblem(request.url.split('?')[0] ?? ''));
  });
}

function asProblem(error: unknown): ProblemError {
  if (error instanceof ProblemError) return error;
  if (hasZodFastifySchemaValidationErrors(error)) {
    const where = error.validation
      .map((one) => `${one.instancePath.replace(/^\//, '').replaceAll('/', '.') || 'body'}: ${one.message}`)
      .join('; ');
    return problems.invalid(`The request does not fit: ${where}.`);
  }
  if (error instanceof StoreError) {
    const refused = refusalOf(error);
    if (refused !== undefined) return refused;
  }
  const known = error as { statusCode?: number; code?: string; message?: string };
  if (known.code === 'FST_ERR_CTP_BODY_TOO_LARGE') return problems.tooLarge(uploadLimit);
  if (known.code === 'FST_ERR_CTP_INVALID_MEDIA_TYPE') return problems.notBytes();
  if (known.statusCode !== undefined && known.statusCode >= 400 && known.statusCode < 500)
    return problems.invalid(known.message ?? 'The request was not understood.');
  return new ProblemError(
    500,
    'unexpected',
    'Something went wrong in the station.',
    'What was saved is safe. Try again; if it happens again, the log beside the data folder says more.',
  );
}

/** What the store refused because of what was asked; everything else it says is the station's own trouble. */
function refusalOf({ code, message }: StoreError): ProblemError | undefined {
  if (code === 'changed-meanwhile')
    return new ProblemError(409, code, message, 'Nothing was changed. Look at it as it is now, then change it again.');
  if (code === 'bad-value' || code === 'text-not-storable')
    return new ProblemError(400, code, message, 'Nothing was changed. Correct what is named and send it again.');
  if (code === 'not-found' || code === 'refers-to-nothing')
    return new ProblemError(404, 'not-found', message, 'It may have been opened from an old address.');
  return undefined;
}

/** Largest file the station takes over HTTP, bytes. */
export const uploadLimit = 512 * 1024 * 1024;
