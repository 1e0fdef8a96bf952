import type { FastifyReply, FastifyRequest } from 'fastify';
import { tellAll } from '../../shared/messages/tell-all.ts';
import { speechOfRequest } from './request-language.ts';

/** Comment lines keep the connection open through proxies that close quiet ones. */
const KEEP_ALIVE_MS = 15_000;

type Send = (event: string, value: unknown, last?: boolean) => void;

/**
 * Answers with server-sent events.
 * @param start begins sending; answers what to do when the other side leaves or the last event was sent
 */
export function sendEvents(request: FastifyRequest, reply: FastifyReply, start: (send: Send) => () => void): void {
  const speech = speechOfRequest(request);
  reply.hijack();
  const out = reply.raw;
  out.writeHead(200, {
    'content-type': 'text/event-stream',
    'cache-control': 'no-store',
    connection: 'keep-alive',
    'x-accel-buffering': 'no',
  });
  const keepAlive = setInterval(() => out.write(': still here\n\n'), KEEP_ALIVE_MS);
  let ended = false;
  let stop = () => {};
  const end = () => {
    if (ended) return;
    ended = true;
    clearInterval(keepAlive);
    stop();
    out.end();
  };
  request.raw.on('close', end);
  const send: Send = (event, value, last = false) => {
    if (ended) return;
    out.write(`event: ${event}\ndata: ${JSON.stringify(tellAll(request.narrow(value), speech))}\n\n`);
    if (last) end();
  };
  const began = start(send);
  if (ended) began();
  else stop = began;
}
