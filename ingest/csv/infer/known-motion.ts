import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import type { HeadTable } from '../text/head-table.ts';
import type { Motion } from '../motion/period-by-motion.ts';
import { likelyGyroscopeScale, type Situation } from './infer-scale.ts';
import type { SensorFound, Triple } from './sensor-found.ts';
import { normFacts } from './rest-norm.ts';

/**
 * What a sensor of the file read, as far as names, units and numbers tell before its time and scale are settled.
 * @param rows those of the sensor; null where all are
 */
export function knownMotion(
  { acc, gyr }: SensorFound,
  head: HeadTable,
  rows: number[] | null,
  situation: Omit<Situation, 'written' | 'gravity'>,
): Motion {
  const pick = (triple: Triple) =>
    triple.map(({ index }) =>
      rows ? Float64Array.from(rows, (row) => head.numbers[index][row]) : head.numbers[index],
    );
  const accColumns = pick(acc);
  const unit = acc[0].unit?.kind === 'acc' ? acc[0].unit.to_si : null;
  const { counts_per_g } = situation.preamble;
  const one_g =
    unit !== null
      ? STANDARD_GRAVITY_MPS2 / unit
      : (counts_per_g ?? normFacts(accColumns[0], accColumns[1], accColumns[2]).resting);
  const gyrColumns = gyr && pick(gyr);
  const scale = gyrColumns && likelyGyroscopeScale(gyrColumns, { ...situation, written: gyr[0].unit, gravity: null });
  return {
    acc: accColumns,
    one_g,
    gyr: gyrColumns && scale ? gyrColumns.map((axis) => axis.map((v) => v * scale)) : null,
  };
}
