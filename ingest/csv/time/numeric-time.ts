import { because } from '../../../shared/reason.ts';
import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import type { Evidence } from '../columns/evidence.ts';
import { type LayoutChoice, LayoutQuestion } from '../columns/layout-question.ts';
import type { TimeFacts } from './time-facts.ts';
import type { TimeSituation } from './time-situation.ts';
import { fitOfPeriod, isCommonRate, type Motion, ratesByMotion, ratesNotExcluded } from '../motion/period-by-motion.ts';
import { datedUnit, isPlausibleRate, RARE_UNITS, type TimeUnit, UNITS } from './time-units.ts';

/**
 * The unit of a column of numbers that grows: as told, as written, by a date that programs share, by the stated rate, or by what
 * the motion allows.
 * @throws LayoutQuestion where several units give a rate, or what is written cannot be
 */
export function numericTime(facts: TimeFacts, situation: TimeSituation, base: TimeColumns): TimeColumns {
  const { preamble, evidence, told } = situation;
  const { column, interval } = facts;
  const label = column.name ? `"${column.name}"` : `column ${column.index + 1}`;
  const rateOf = (seconds: number) => 1 / (interval * seconds);
  const made = (unit: TimeUnit, why: string, source: Evidence['source']): TimeColumns => {
    const first = facts.first * unit.seconds;
    const epoch_s = unit.epoch_s ?? (first > 5e8 && first < 4.2e9 ? 0 : null);
    evidence.push({ about: 'time', decided: `${label} in ${unit.unit}`, because: why, source });
    const carried = facts.carried ? { carried: true } : {};
    return { ...base, kind: 'number', columns: [column.index], seconds_per_unit: unit.seconds, epoch_s, ...carried };
  };
  const own = (unit: string, seconds: number): TimeUnit => ({ unit, seconds, epoch_s: null });
  if (told?.time?.seconds_per_unit)
    return made(own('units of the layout', told.time.seconds_per_unit), 'from the layout', 'told');
  const dated = datedUnit(facts.first, interval, facts.whole);
  const given = situation.rate_hz ?? told?.time?.rate_hz ?? preamble.rate_hz;
  const isTicks = column.unit?.unit === 'ticks' || /tick|clk/i.test(column.name);
  const motion = lazily(situation);
  if (column.unit?.kind === 'time') return writtenUnit(facts, dated, motion, made, situation);
  if (dated && !(isTicks && dated.seconds > 1e-6))
    return made(dated, `a date of today by its size; gives ${inHz(rateOf(dated.seconds))}`, 'measured');
  const plausible = UNITS.filter(({ seconds }) => isPlausibleRate(rateOf(seconds)));
  if (preamble.ticks_per_s && (isTicks || plausible.length === 0)) {
    const ticks = own(`ticks of 1/${preamble.ticks_per_s} s`, 1 / preamble.ticks_per_s);
    return made(ticks, `"${preamble.lines.ticks_per_s}"`, 'written');
  }
  if (given) {
    const agrees = plausible.find(({ seconds }) => Math.abs(rateOf(seconds) / given - 1) < 0.1);
    // A count of the rows is no clock: its unit is the stated interval itself.
    if (agrees && !isTicks && !facts.counts)
      return made(agrees, `its step gives ${inHz(rateOf(agrees.seconds))}, as stated (${given} Hz)`, 'measured');
    const source = situation.rate_hz || told?.time?.rate_hz ? 'told' : 'written';
    // Rows that came twice bend the mean step: where a usual tick is next to it, that one is meant.
    const usual = facts.counts
      ? undefined
      : [...UNITS, ...RARE_UNITS].find(({ seconds }) => Math.abs(rateOf(seconds) / given - 1) < NEXT_TO);
    if (usual) return made(usual, `a step of ${interval.toPrecision(5)} next to the stated ${given} Hz`, source);
    const unit = own(facts.counts ? 'rows' : 'ticks', 1 / ((facts.counts ? 1 : interval) * given));
    return made(unit, `a step of ${interval.toPrecision(5)} at the stated ${given} Hz`, source);
  }
  return withoutWord({ facts, plausible, isTicks, motion, made, situation });
}

/** A usual tick is meant where it gives the stated rate this nearly. */
const NEXT_TO = 0.01;
const inHz = (rate: number) => `${rate.toPrecision(4)} Hz`;

function lazily(situation: TimeSituation): () => Motion | null {
  let known: Motion | null | undefined;
  return () => {
    if (known === undefined) known = situation.motion?.() ?? null;
    return known;
  };
}

type Made = (unit: TimeUnit, why: string, source: Evidence['source']) => TimeColumns;

/** A written unit holds unless its rate is none, or the motion speaks against it and for another. */
function writtenUnit(
  { column, interval }: TimeFacts,
  dated: TimeUnit | null,
  motion: () => Motion | null,
  made: Made,
  { file }: TimeSituation,
): TimeColumns {
  const written = column.unit!;
  const rateOf = (seconds: number) => 1 / (interval * seconds);
  const unit = {
    unit: written.unit,
    seconds: written.to_si,
    epoch_s: dated?.seconds === written.to_si ? dated.epoch_s : null,
  };
  const others = [...UNITS, ...RARE_UNITS].filter(
    ({ seconds }) => seconds !== written.to_si && isPlausibleRate(rateOf(seconds)),
  );
  const known = motion();
  const possible = isPlausibleRate(rateOf(written.to_si));
  const better =
    possible && known && fitOfPeriod(known, interval * written.to_si) === 'not'
      ? others.filter(({ seconds }) => fitOfPeriod(known, interval * seconds) === 'fits')
      : [];
  if (better.length === 0 && (possible || !others.some((other) => UNITS.includes(other))))
    return made(unit, `written; gives ${inHz(rateOf(written.to_si))}`, 'written');
  const offered = better.length > 0 ? better : others.filter((other) => UNITS.includes(other));
  throw new LayoutQuestion(file, {
    about: 'time unit',
    found: because('found_time_misfit', {
      column: { name: column.name, n: column.index + 1 },
      unit: written.unit,
      step: interval.toPrecision(4),
      hz: rateOf(written.to_si).toPrecision(4),
      motion: better.length > 0,
    }),
    choices: [...offered, unit].map(({ unit: name, seconds }) => ({
      label: because('choice_rate', { unit: name, hz: rateOf(seconds).toPrecision(4) }),
      correction: { time: { seconds_per_unit: seconds } },
    })),
  });
}

/** Nobody records a sprint in less. */
const SHORTEST_S = 3;
/** Few sensors on a leg are faster ('common practice'). */
const FASTEST_USUAL_HZ = 1130;
const SLOWEST_USUAL_HZ = 25;
/** Below this a contact time cannot be told at all, so few record sprints so slowly ('common practice'). */
const HARDLY_SPRINTS_HZ = 60;
/** Rates nearer than this are not told from each other by the motion. */
const ONE_RATE = 0.13;

interface Wordless {
  facts: TimeFacts;
  plausible: TimeUnit[];
  isTicks: boolean;
  motion: () => Motion | null;
  made: Made;
  situation: TimeSituation;
}

/** No unit, no rate: what gives a rate, and what the motion says about it. */
function withoutWord({ facts, plausible, isTicks, motion, made, situation }: Wordless): TimeColumns {
  const { interval, counts, column } = facts;
  const rateOf = (seconds: number) => 1 / (interval * seconds);
  const rare = RARE_UNITS.filter(({ seconds }) => isPlausibleRate(rateOf(seconds)));
  const known = motion();
  // Only where 1 g is known can the turning tell.
  const turning = known !== null && known.gyr !== null && known.one_g !== null;
  const fitting = known
    ? [...plausible, ...rare].filter(({ seconds }) => fitOfPeriod(known, interval * seconds) === 'fits')
    : [];
  const common = fitting.filter((unit) => plausible.includes(unit));
  const step = `its step of ${interval.toPrecision(4)} gives`;
  // A count of the rows fits a millisecond just where 1000 rows a second do: named as time, it is one.
  // Strides alone do not tell 800 rows a second from 1000; the gyroscope does.
  const aCount = (counts && (column.kind !== 'time' || !turning)) || isTicks;
  // A rarer unit that fits as well, at a usual rate, leaves it open.
  const usualRare = rare.filter(({ seconds }) => {
    const rate = rateOf(seconds);
    return isCommonRate(rate) && rate <= FASTEST_USUAL_HZ && rate >= SLOWEST_USUAL_HZ;
  });
  const open = known !== null && usualRare.some(({ seconds }) => fitOfPeriod(known, interval * seconds) !== 'not');
  const best =
    common.length === 1 && !open ? common[0] : common.length === 0 && fitting.length === 1 ? fitting[0] : null;
  // Of a rate that is hardly met, where a rarer unit gives a usual one, nobody can be sure without the gyroscope.
  const doubtful = (unit: TimeUnit) =>
    (!isCommonRate(rateOf(unit.seconds)) ||
      rateOf(unit.seconds) > FASTEST_USUAL_HZ ||
      rateOf(unit.seconds) < HARDLY_SPRINTS_HZ ||
      situation.head.rows * interval * unit.seconds < SHORTEST_S) &&
    usualRare.length > 0;
  const usual =
    best !== null &&
    (turning ? UNITS.includes(best) || isCommonRate(rateOf(best.seconds)) : UNITS.includes(best) && !doubtful(best));
  const rates = known ? ratesByMotion(known) : [];
  // Of a count, other rates must be ruled out: it would be a millisecond at 1000 rows a second alone.
  const alone =
    !counts ||
    !best ||
    !known ||
    ratesNotExcluded(known).every((rate) => Math.abs(rate / rateOf(best.seconds) - 1) < ONE_RATE);
  if (best && !aCount && usual && alone)
    return made(best, `${step} ${inHz(rateOf(best.seconds))}, at which the sensor moved as a leg does`, 'measured');
  const judged =
    known !== null &&
    (fitting.length > 0 || plausible.some(({ seconds }) => fitOfPeriod(known, interval * seconds) === 'not'));
  const [single] = plausible;
  const rival = single !== undefined && doubtful(single);
  if (plausible.length === 1 && !counts && !isTicks && !judged && !rival) {
    return made(
      single,
      `${step} ${inHz(rateOf(single.seconds))}; no other unit gives a rate from 8 to 8000 Hz`,
      'measured',
    );
  }
  const units = [...new Set([...fitting, ...plausible, ...(plausible.length === 0 || rival || judged ? rare : [])])];
  const choices: LayoutChoice[] = units.map(({ unit, seconds }) => ({
    label: because('choice_rate', { unit, hz: rateOf(seconds).toPrecision(4) }),
    correction: { time: { seconds_per_unit: seconds } },
  }));
  for (const rate of rates.length > 0 ? rates.slice(0, 4) : [500]) {
    const at = { hz: rate, motion: rates.length > 0 };
    choices.push({
      label: counts ? because('choice_row_number', at) : because('choice_ticks', at),
      correction: { time: { rate_hz: rate } },
    });
  }
  throw new LayoutQuestion(situation.file, {
    about: 'time unit',
    found: because('found_time_without_unit', {
      column: { name: column.name, n: column.index + 1 },
      step: interval.toPrecision(5),
    }),
    choices,
    hint: because('do_rate', { hz: rates[0] ?? 500, example: JSON.stringify(choices[0].correction) }),
  });
}
