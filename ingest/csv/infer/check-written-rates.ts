import { because } from '../../../shared/reason.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { hardlyTurned } from '../motion/hardly-turned.ts';
import { fitOfPeriod } from '../motion/period-by-motion.ts';
import type { Scale, Situation } from './infer-scale.ts';
import { normFacts, peakAbsolute } from './rest-norm.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';

/** Turned back as written, the mean is this near to 1 g: nothing to ask. */
const AS_WRITTEN = 0.2;

/**
 * Degrees named but radians written, or the other way round: turned back as written the acceleration leaves no 1 g, turned back in
 * the other unit it does.
 * @throws LayoutQuestion with both units
 */
export function checkWrittenRates(
  gyr: Float64Array[],
  acc: Float64Array[],
  known: { accScale: Scale; gyrScale: Scale; gravity: number | null; period_s: number },
  { written, told, file }: Situation,
): void {
  const { accScale, gyrScale, gravity, period_s } = known;
  if (written?.kind !== 'gyr' || told?.gyr_unit || told?.sensors) return;
  if (tooSlow(gyr, acc, accScale, gyrScale)) throw asked(gyrScale, 'rad/s', file, true);
  if (gravity !== null && Math.abs((gravity * accScale.to_si) / STANDARD_GRAVITY_MPS2 - 1) < AS_WRITTEN) return;
  const motion = (to_si: number) => ({
    acc,
    one_g: STANDARD_GRAVITY_MPS2 / accScale.to_si,
    gyr: gyr.map((axis) => axis.map((value) => value * to_si)),
  });
  if (fitOfPeriod(motion(gyrScale.to_si), period_s) !== 'not') return;
  const others = (
    [
      ['rad/s', 1],
      ['deg/s', RADIANS_PER_DEGREE],
    ] as const
  ).filter(([, to_si]) => to_si !== gyrScale.to_si);
  const better = others.find(([, to_si]) => fitOfPeriod(motion(to_si), period_s) === 'fits');
  if (better) throw asked(gyrScale, better[0], file, false);
}

/** True where degrees a second are written and hardly any are reached while the sensor is shaken. */
function tooSlow(gyr: Float64Array[], acc: Float64Array[], accScale: Scale, gyrScale: Scale): boolean {
  const shaken_g = (normFacts(acc[0], acc[1], acc[2]).peak * accScale.to_si) / STANDARD_GRAVITY_MPS2;
  const peak = peakAbsolute(gyr);
  const peak_dps = (peak * gyrScale.to_si) / RADIANS_PER_DEGREE;
  return /^m?deg\/s$/.test(gyrScale.unit) && peak > 1.5 && hardlyTurned(shaken_g, peak_dps);
}

function asked(gyrScale: Scale, better: 'rad/s' | 'deg/s', file: string, shaken: boolean): LayoutQuestion {
  const units = { written: gyrScale.unit, better };
  return new LayoutQuestion(file, {
    about: 'gyroscope unit',
    found: shaken ? because('found_rates_misfit_shaken', units) : because('found_rates_misfit_turned', units),
    choices: [
      { label: because('choice_unit', { unit: better }), correction: { gyr_unit: better } },
      ...(gyrScale.unit === 'deg/s' || gyrScale.unit === 'rad/s' || gyrScale.unit === 'mdeg/s'
        ? [
            {
              label: because('choice_as_written', { unit: gyrScale.unit }),
              correction: { gyr_unit: gyrScale.unit } as const,
            },
          ]
        : []),
    ],
  });
}
