import type { FaultCode } from '../../../shared/fault-codes.ts';
import type { Fault } from '../../../shared/fault.ts';
import type { Remark } from '../columns/evidence.ts';
import type { SensorAssembler } from './assemble-sensor.ts';
import type { RejectedRows } from './rejected-rows.ts';

/** Below this rate a contact of 0.1 s has too few samples for its two instants (common practice: 200 Hz and more). */
const LOW_RATE_HZ = 100;

type Assembled = Pick<SensorAssembler, 'plan' | 'time' | 'summary'> &
  Partial<Pick<SensorAssembler, 'filled_rows' | 'slower_share' | 'stuckAxes'>>;

interface Closing {
  file: string;
  sensors: Assembled[];
  /** Rows of quantities that nobody asked for, by what they are called. */
  passedOver: Map<string, number>;
  rejected: RejectedRows;
  cutShort: boolean;
  rate_hz: number | undefined;
  /** What the first rows showed about the sensor. */
  remarks: Remark[];
}

/** What was met while reading and did not stop it: each with what happened and what to do. */
export function closingFaults({ file, sensors, rejected, cutShort, passedOver, rate_hz, remarks }: Closing): Fault[] {
  const faults: Fault[] = [];
  const add = (code: FaultCode, text: string, hint: string, where: Fault['where'] = {}) =>
    faults.push({ code, message: `${file}: ${text}`, where: { file, ...where }, hint });
  if (cutShort) {
    add(
      'FILE_CUT_SHORT',
      'the compressed file breaks off; what came before the break was read.',
      'Copy the file from the sensor again.',
    );
  }
  if (rejected.count > 0) {
    const first = rejected.kept[0];
    add(
      'ROWS_SET_ASIDE',
      `${rejected.count} row${rejected.count === 1 ? '' : 's'} set aside (first: line ${first.line}${first.column ? `, column "${first.column}"` : ''}: found ${first.found}, expected ${first.expected}).`,
      'The list of rows can be downloaded; nothing was filled in for them.',
      { rows_set_aside: rejected.count, line: first.line, column: first.column },
    );
  }
  if (passedOver.size > 0) {
    const named = [...passedOver].map(([name, rows]) => `${rows} of "${name}"`).join(', ');
    add(
      'ROWS_PASSED_OVER',
      `rows of other quantities were passed over: ${named}.`,
      'If one of them is acceleration or angular rate, say so in a layout (acc_value, gyr_value).',
    );
  }
  for (const { code, text, hint } of remarks) add(code, text, hint);
  for (const sensor of sensors) {
    sensorFaults(sensor, rate_hz, add);
    brokenSensor(sensor, add);
  }
  return faults;
}

type Add = (code: FaultCode, text: string, hint: string, where?: Fault['where']) => void;

function sensorFaults(sensor: Assembled, told: number | undefined, add: Add): void {
  const { side } = sensor.plan;
  const { sampling_rate_hz: rate, gaps } = sensor.summary();
  const { events } = sensor.time;
  const lost = gaps.reduce((sum, gap) => sum + (gap.lost_samples ?? 0), 0);
  if (rate < 0.98 * LOW_RATE_HZ) {
    add(
      'RATE_LOW',
      `${rate.toFixed(1)} Hz is below ${LOW_RATE_HZ} Hz, too few samples in a contact for contact times; steps can be counted.`,
      'Record at 200 Hz or more, better 500 Hz.',
      { side, sampling_rate_hz: rate },
    );
  }
  if (told && Math.abs(rate / told - 1) > 0.02) {
    add(
      'RATE_DISAGREES',
      `the file's own time gives ${rate.toFixed(2)} Hz where ${told} Hz was stated; the file's time was used.`,
      'Check the stated rate.',
      { side },
    );
  }
  if (gaps.length > 0) {
    const longest = gaps.reduce((a, b) => (b.end_s - b.start_s > a.end_s - a.start_s ? b : a));
    add(
      'SAMPLES_LOST',
      `${gaps.length} gap${gaps.length === 1 ? '' : 's'}, ${lost} samples lost; the longest from ${longest.start_s.toFixed(3)} to ${longest.end_s.toFixed(3)} s. Nothing was filled in.`,
      'Contacts at a gap are left out; bring the receiver nearer or record on the sensor.',
      { side, gaps: gaps.length, lost_samples: lost },
    );
  }
  if (events.restarts > 0) {
    add(
      'CLOCK_RESTARTED',
      `the clock started again ${events.restarts === 1 ? 'once' : `${events.restarts} times`}; how long the sensor was away is not known, so times after it are not tied to those before.`,
      'Check the battery, or cut the recording into two.',
      { side, restarts: events.restarts },
    );
  }
  if (events.out_of_order > 0) {
    add('ROWS_OUT_OF_ORDER', `${events.out_of_order} rows came late and were put in order by their time.`, '', {
      side,
      rows: events.out_of_order,
    });
  }
  if (events.duplicates > 0) {
    add('ROWS_REPEATED', `${events.duplicates} rows came twice, alike in every value; one of each was kept.`, '', {
      side,
      rows: events.duplicates,
    });
  }
}

/** What shows that a sensor or the way from it is broken. */
function brokenSensor(sensor: Assembled, add: Add): void {
  const { filled_rows = 0, slower_share = 0 } = sensor;
  const { side } = sensor.plan;
  if (filled_rows > 0) {
    add(
      'SAMPLES_FILLED',
      `${filled_rows} rows hold nothing but zeros, or the row before again and again while the sensor moves: they were lost on the way and filled in. They were left out.`,
      'Contacts there are left out; bring the receiver nearer or record on the sensor.',
      { side, rows: filled_rows },
    );
  }
  if (slower_share > 0) {
    add(
      'SENSOR_SLOWER',
      `${(100 * slower_share).toFixed(0)} % of the rows repeat the row before: the sensor measured fewer times a second than the file has rows.`,
      'Export at the rate at which the sensor measures: times are no finer than that.',
      { side },
    );
  }
  const stuck = sensor.stuckAxes?.() ?? [];
  if (stuck.length > 0) {
    add(
      'AXIS_STUCK',
      `the ${stuck.join(', ')} gives the same value in every row; the sensor or its export is broken there.`,
      'What rests on that axis is not to be trusted; check the sensor and export again.',
      { side, axes: stuck.join(', ') },
    );
  }
}
