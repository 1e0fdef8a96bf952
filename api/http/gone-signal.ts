import type { FastifyReply } from 'fastify';

/** A signal for work that is of use to one request only: it is given when the other side leaves before its answer. */
export function goneSignal(reply: FastifyReply): AbortSignal {
  const abort = new AbortController();
  reply.raw.on('close', () => {
    if (!reply.raw.writableFinished) abort.abort();
  });
  return abort.signal;
}
