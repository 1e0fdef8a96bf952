import { type Fault, fault } from '../../../shared/fault.ts';
import type { SensorAssembler } from './assemble-sensor.ts';
import type { RejectedRows } from './rejected-rows.ts';

/** Below this rate a contact of 0.1 s has too few samples for its two instants (common practice: 200 Hz and more). */
const LOW_RATE_HZ = 100;

type Assembled = Pick<SensorAssembler, 'plan' | 'time' | 'summary'> &
  Partial<Pick<SensorAssembler, 'filled_rows' | 'slower_share' | 'stuckAxes' | 'hardlyTurned'>>;

interface Closing {
  file: string;
  sensors: Assembled[];
  /** Rows of quantities that nobody asked for, by what they are called. */
  passedOver: Map<string, number>;
  rejected: RejectedRows;
  cutShort: boolean;
  rate_hz: number | undefined;
  /** What the first rows showed about the sensor. */
  remarks: Fault[];
}

/** What was met while reading and did not stop it: each with what happened and what to do. */
export function closingFaults({ file, sensors, rejected, cutShort, passedOver, rate_hz, remarks }: Closing): Fault[] {
  const faults: Fault[] = [];
  if (cutShort) faults.push(fault('FILE_CUT_SHORT', { file }, { file }));
  if (rejected.count > 0) {
    const { line, column, found, expected } = rejected.kept[0];
    const values = { file, count: rejected.count, line, column, found, expected };
    faults.push(fault('ROWS_SET_ASIDE.rows', values, { file, rows_set_aside: rejected.count, line, column }));
  }
  if (passedOver.size > 0) {
    const named = [...passedOver].map(([name, rows]) => ({ name, rows }));
    faults.push(fault('ROWS_PASSED_OVER', { file, named }, { file }));
  }
  faults.push(...remarks);
  for (const sensor of sensors) faults.push(...sensorFaults(sensor, rate_hz, file), ...brokenSensor(sensor, file));
  return faults;
}

function sensorFaults(sensor: Assembled, told_hz: number | undefined, file: string): Fault[] {
  const faults: Fault[] = [];
  const where = { file, side: sensor.plan.side };
  const { sampling_rate_hz: rate, gaps } = sensor.summary();
  const { restarts, out_of_order, duplicates } = sensor.time.events;
  const lost = gaps.reduce((sum, gap) => sum + (gap.lost_samples ?? 0), 0);
  if (rate < 0.98 * LOW_RATE_HZ) {
    const values = { file, rate_hz: rate, least_hz: LOW_RATE_HZ };
    faults.push(fault('RATE_LOW', values, { ...where, sampling_rate_hz: rate }));
  }
  if (told_hz && Math.abs(rate / told_hz - 1) > 0.02) {
    faults.push(fault('RATE_DISAGREES', { file, rate_hz: rate, told_hz }, where));
  }
  if (gaps.length > 0) {
    const longest = gaps.reduce((a, b) => (b.end_s - b.start_s > a.end_s - a.start_s ? b : a));
    const values = { file, gaps: gaps.length, lost, from_s: longest.start_s, to_s: longest.end_s };
    faults.push(fault('SAMPLES_LOST', values, { ...where, gaps: gaps.length, lost_samples: lost }));
  }
  if (restarts > 0) faults.push(fault('CLOCK_RESTARTED', { file, times: restarts }, { ...where, restarts }));
  if (out_of_order > 0) {
    faults.push(fault('ROWS_OUT_OF_ORDER', { file, rows: out_of_order }, { ...where, rows: out_of_order }));
  }
  if (duplicates > 0) faults.push(fault('ROWS_REPEATED', { file, rows: duplicates }, { ...where, rows: duplicates }));
  return faults;
}

/** What shows that a sensor or the way from it is broken. */
function brokenSensor(sensor: Assembled, file: string): Fault[] {
  const faults: Fault[] = [];
  const { filled_rows = 0, slower_share = 0 } = sensor;
  const where = { file, side: sensor.plan.side };
  if (filled_rows > 0) {
    faults.push(fault('SAMPLES_FILLED', { file, rows: filled_rows }, { ...where, rows: filled_rows }));
  }
  if (slower_share > 0) faults.push(fault('SENSOR_SLOWER', { file, percent: 100 * slower_share }, where));
  const stuck = sensor.stuckAxes?.() ?? [];
  if (stuck.length > 0) {
    faults.push(fault('AXIS_STUCK', { file, axes: stuck }, { ...where, axes: stuck.join(', ') }));
  }
  const turned = sensor.hardlyTurned?.();
  if (turned) faults.push(fault('RATES_DOUBTFUL', { file, ...turned }, where));
  return faults;
}
