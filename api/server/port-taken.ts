import { fault, FaultError } from '../../shared/fault.ts';

/** @param option the command line's option that names the port */
export function portTaken(port: number, option: '--port' | '--https-port'): FaultError {
  return new FaultError(fault('SERVER_PORT_TAKEN', { port, option }, { port }));
}
