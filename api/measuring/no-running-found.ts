import type { SensorQuality } from '../../shared/analysis.ts';
import { type Fault, fault } from '../../shared/fault.ts';

/**
 * Said where a recording holds no running: it is kept, and nothing is made up. A sensor that seems to have been worn elsewhere than
 * stated is the likeliest reason.
 */
export function noRunningFound(quality: SensorQuality[] = []): Fault {
  const doubt = quality.flatMap(({ faults }) => faults).find(({ code }) => code === 'MOUNTING_DOUBTFUL');
  return doubt ? fault('NO_RUNNING_FOUND.worn_elsewhere', { doubt }, doubt.where) : fault('NO_RUNNING_FOUND', {});
}
