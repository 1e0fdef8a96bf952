import { expect, test } from 'vitest';
import {
  LiveRepetitions,
  type RepetitionSpan,
  type WatchedSensor,
} from '../../../api/capture/results/live-repetitions.ts';
import { Movement } from '../../../api/capture/sensors/movement.ts';
import { clockOf } from '../../../ingest/ble/assembly/arrival-clock.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { commonTime } from '../../../shared/sensor-clock.ts';
import { runningPackets } from '../../helpers/running-packets.ts';

const [bramble] = shippedDescriptions();
const settings = { rate_hz: 500, acc_full_scale: 32, gyr_full_scale: 4000 };
/** Half a minute of standing follows the run: it is over long before the data are. */
const STAND_AFTER_S = 30;
const made = runningPackets(bramble, settings, { seed: 12, stand_after_s: STAND_AFTER_S });
const BEGIN_S = 1000;

/** Two sensors whose packets are handed over when the test says so. */
function watch() {
  const sensors = (['left', 'right'] as const).map((side) => {
    const assembler = new StreamAssembler(bramble, settings, 180);
    const movement = new Movement(settings.rate_hz);
    assembler.linkStarted(BEGIN_S);
    const place = {
      name: side,
      description_id: bramble.id,
      settings,
      side,
      mounting: 'foot',
      athlete_id: null,
    } as const;
    const watched: WatchedSensor = {
      place,
      assembler,
      movement,
      latestHostTime: () => {
        const fit = assembler.clockFit();
        const latest = assembler.latestTime();
        return fit === null || latest === null ? null : commonTime(latest, clockOf(fit));
      },
    };
    return { side, watched, next: 0 };
  });
  /** All that was sent up to then, seconds after the begin. */
  const hear = (until_s: number) => {
    for (const sensor of sensors) {
      const packets = made.recorded[sensor.side];
      for (; sensor.next < packets.length && packets[sensor.next].due_s <= until_s; sensor.next++) {
        const { bytes, due_s } = packets[sensor.next];
        const decoded = sensor.watched.assembler.add(Buffer.from(bytes, 'hex'), BEGIN_S + due_s);
        if (decoded !== null) sensor.watched.movement.add(decoded, BEGIN_S + due_s);
      }
    }
  };
  const ended: RepetitionSpan[] = [];
  const failed: Error[] = [];
  const live = new LiveRepetitions(
    sensors.map(({ watched }) => watched),
    { contacts: () => {}, ended: (span) => ended.push(span), failed: (error) => failed.push(error) },
  );
  return { hear, live, ended, failed };
}

const end_s = made.last_toe_off_s + STAND_AFTER_S;

test('a run is found once while it is looked at four times a second', () => {
  const { hear, live, ended, failed } = watch();
  for (let at_s = 0.5; at_s < made.last_toe_off_s + 3; at_s += 0.25) {
    hear(at_s);
    live.tick(BEGIN_S + at_s);
  }
  expect(failed).toEqual([]);
  expect(ended).toHaveLength(1);
  expect(ended[0].end_s - BEGIN_S).toBeCloseTo(made.last_toe_off_s, 1);
});

test('a whole run between two looks, half a minute apart, is still found: a machine may stand still', () => {
  const { hear, live, ended, failed } = watch();
  hear(1);
  live.tick(BEGIN_S + 1);
  hear(end_s);
  live.tick(BEGIN_S + end_s);
  expect(failed).toEqual([]);
  expect(ended).toHaveLength(1);
  expect(ended[0].end_s - BEGIN_S).toBeCloseTo(made.last_toe_off_s, 1);
});

test('a run that came while the host had no time, in a replay ahead of the host clock, is found as well', () => {
  const { hear, live, ended } = watch();
  hear(1);
  live.tick(BEGIN_S + 0.1);
  hear(end_s);
  live.tick(BEGIN_S + end_s / 10);
  expect(ended).toHaveLength(1);
});
