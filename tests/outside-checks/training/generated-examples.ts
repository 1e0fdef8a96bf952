/**
 * Generated runs that the second stage learns from: speeds, starts and impacts that nobody on force plates here shows. Their seeds and
 * athletes are none that the report judges by.
 */
import type { SensorModel } from '../../../seeds/sensor/sensor-model.ts';
import { sprintPlans } from '../../generators/second/plans.ts';
import { caseOf } from '../validation/second-generator-cases.ts';
import { sprintCases, steadyCases } from '../validation/simulated-cases.ts';
import type { ValidationCase } from '../validation/validation-case.ts';
import { addExamples, type ExamplesByKind, KINDS, kindName } from './training-cases.ts';

const WIDE = { acc_range_g: 200, gyr_range_dps: 4000 };

/** As from camera markers: no strap, and nothing above some 40 Hz. */
const MARKERS = { rate_hz: 300, bandwidth_hz: 40, strap_hz: Number.POSITIVE_INFINITY };

/** Sensors, with the seeds of the sprinters who wear them. */
const SPRINTS: [sensor: Partial<SensorModel>, seeds: number[]][] = [
  [{ rate_hz: 1000, ...WIDE }, [7001, 7002]],
  [{ rate_hz: 500, ...WIDE }, [7101, 7102]],
  [{ rate_hz: 400, acc_range_g: 16, gyr_range_dps: 2000 }, [7201, 7202]],
  [MARKERS, [7301, 7302, 7303, 7304]],
];

/** Of each run so many contacts are learned from: people on plates are to outweigh it. */
const PER_RUN = 8;

/** Contacts of generated runs, by kind. */
export function generatedExamples(): ExamplesByKind {
  const examples: ExamplesByKind = {};
  for (const test of generatedCases()) {
    const own: ExamplesByKind = {};
    addExamples(own, test, `generated ${test.name}`);
    for (const name of KINDS.map(kindName)) {
      const list = own[name] ?? [];
      const count = Math.min(PER_RUN, list.length);
      const taken = Array.from({ length: count }, (_, k) => list[Math.floor((k * list.length) / count)]);
      examples[name] = (examples[name] ?? []).concat(taken);
    }
  }
  return examples;
}

function* generatedCases(): Generator<ValidationCase> {
  for (const [sensor, seeds] of SPRINTS) yield* sprintCases(seeds, sensor, 'learned', { internal_rate_hz: 2000 });
  yield* steadyCases([7404, 7405], { rate_hz: 500, ...WIDE });
  for (const smooth of [false, true]) {
    // Three athletes of each kind, both mountings.
    for (const plan of sprintPlans(smooth).slice(0, 6)) {
      const athlete = `${plan.athlete} the younger`;
      yield caseOf('learned', { ...plan, name: `${plan.name}-${smooth}-learned`, athlete });
    }
  }
}
