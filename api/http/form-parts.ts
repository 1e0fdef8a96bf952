import type { Multipart } from '@fastify/multipart';
import type { FastifyRequest } from 'fastify';
import { FaultError, fault } from '../../shared/fault.ts';

/**
 * Parts of a form as they stream in.
 * @throws FaultError REQUEST_INVALID where the form itself cannot be read: no boundary, an end that is missing
 */
export async function* formParts(
  request: FastifyRequest,
  options?: Parameters<FastifyRequest['parts']>[0],
): AsyncGenerator<Multipart> {
  try {
    yield* request.parts(options);
  } catch (error) {
    // Limits of the library carry a status of their own; the rest is the parser's word about the form.
    if (error instanceof FaultError || (error as { statusCode?: number }).statusCode !== undefined) throw error;
    const why = error instanceof Error ? error.message : String(error);
    throw new FaultError(fault('REQUEST_INVALID.form', { why }, { part: 'form', field: 'content-type' }));
  }
}
