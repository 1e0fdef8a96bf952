import { said } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import { groupSensors, type Placed } from '../../../api/capture/results/sensor-groups.ts';

const sensor = (
  name: string,
  athlete_id: number | null,
  side: Placed['side'],
  mounting: Placed['mounting'] = 'foot',
) => ({
  name,
  athlete_id,
  side,
  mounting,
});
function grouped(...sensors: ReturnType<typeof sensor>[]) {
  const { groups, set_aside } = groupSensors(sensors, (one) => one);
  const names = groups.map((group) => group.sensors.map((one) => one.name).join('+'));
  // Nobody is lost: measured, or set aside with a reason.
  expect(groups.flatMap((group) => group.sensors).length + set_aside.length).toBe(sensors.length);
  return { names, aside: set_aside.map(({ sensor: { name }, why }) => `${name}: ${said(why)}`) };
}

describe('which sensors are measured together', () => {
  it('of one athlete with pairs on foot and shank: the feet, and the shanks are told', () => {
    const { names, aside } = grouped(
      sensor('a', 1, 'left', 'shank'),
      sensor('b', 1, 'right', 'shank'),
      sensor('c', 1, 'left'),
      sensor('d', 1, 'right'),
    );
    expect(names).toEqual(['c+d']);
    expect(aside).toEqual([expect.stringMatching(/^a: .*on the foot are measured/), expect.stringMatching(/^b: /)]);
  });

  it('of one athlete with a pair on the shanks and one foot: the pair', () => {
    expect(
      grouped(sensor('a', 1, 'left'), sensor('b', 1, 'left', 'shank'), sensor('c', 1, 'right', 'shank')).names,
    ).toEqual(['b+c']);
  });

  it('of two pairs without athletes: both, each for itself', () => {
    const pairs = grouped(
      sensor('a', null, 'left'),
      sensor('b', null, 'left'),
      sensor('c', null, 'right'),
      sensor('d', null, 'right'),
    );
    expect(pairs).toEqual({ names: ['a+c', 'b+d'], aside: [] });
  });

  it('of two that are both set to left: one, and the other is told to be set anew', () => {
    const { names, aside } = grouped(sensor('a', 1, 'left'), sensor('b', 1, 'left'), sensor('c', 2, 'left'));
    expect(names).toEqual(['a', 'c']);
    expect(aside).toEqual([expect.stringMatching(/^b: .*on the left foot as well/)]);
  });
});
