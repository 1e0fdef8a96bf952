import { because, type CodedReason } from '../../../shared/reason.ts';
import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import type { Evidence } from '../columns/evidence.ts';
import { type LayoutChoice, LayoutQuestion } from '../columns/layout-question.ts';
import { significant } from '../columns/significant.ts';
import { toldColumn } from '../columns/told-columns.ts';
import { fitOfPeriod, isCommonRate, type Motion, ratesByMotion, ratesNotExcluded } from '../motion/period-by-motion.ts';
import type { TimeFacts } from './time-facts.ts';
import type { TimeSituation } from './time-situation.ts';
import { datedUnit, isPlausibleRate, RARE_UNITS, type TimeUnit, UNITS } from './time-units.ts';

/**
 * The unit of a column of numbers that grows: as told, as written, by a date that programs share, by the stated rate, or by what
 * the motion allows.
 * @throws LayoutQuestion where several units give a rate, or what is written cannot be
 */
export function numericTime(facts: TimeFacts, situation: TimeSituation, base: TimeColumns): TimeColumns {
  const { preamble, evidence, told } = situation;
  const { column, interval } = facts;
  const rateOf = (seconds: number) => 1 / (interval * seconds);
  const made: Made = (unit, why, source) => {
    const first = facts.first * unit.seconds;
    const epoch_s = unit.epoch_s ?? (first > 5e8 && first < 4.2e9 ? 0 : null);
    const decided = because('took_time_in', { column: toldColumn(column), unit: unit.unit });
    evidence.push({ about: 'time', decided, because: why, source });
    const carried = facts.carried ? { carried: true } : {};
    return { ...base, kind: 'number', columns: [column.index], seconds_per_unit: unit.seconds, epoch_s, ...carried };
  };
  const own = (unit: string, seconds: number): TimeUnit => ({ unit, seconds, epoch_s: null });
  if (told?.time?.seconds_per_unit)
    return made(own('units of the layout', told.time.seconds_per_unit), because('by_layout'), 'told');
  const dated = datedUnit(facts.first, interval, facts.whole);
  const given = situation.rate_hz ?? told?.time?.rate_hz ?? preamble.rate_hz;
  const isTicks = column.unit?.unit === 'ticks' || /tick|clk/i.test(column.name);
  const motion = lazily(situation);
  if (column.unit?.kind === 'time') return writtenUnit(facts, dated, motion, made, situation);
  if (dated && !(isTicks && dated.seconds > 1e-6))
    return made(dated, because('by_date', { hz: shown(rateOf(dated.seconds)) }), 'measured');
  const plausible = UNITS.filter(({ seconds }) => isPlausibleRate(rateOf(seconds)));
  if (preamble.ticks_per_s && (isTicks || plausible.length === 0)) {
    const ticks = own(`ticks of 1/${preamble.ticks_per_s} s`, 1 / preamble.ticks_per_s);
    return made(ticks, because('by_line', { line: preamble.lines.ticks_per_s ?? '' }), 'written');
  }
  if (given) {
    const agrees = plausible.find(({ seconds }) => Math.abs(rateOf(seconds) / given - 1) < 0.1);
    // A count of the rows is no clock: its unit is the stated interval itself.
    if (agrees && !isTicks && !facts.counts)
      return made(
        agrees,
        because('by_stated_rate', { hz: shown(rateOf(agrees.seconds)), stated_hz: given }),
        'measured',
      );
    const source = situation.rate_hz || told?.time?.rate_hz ? 'told' : 'written';
    const stated = { step: significant(interval, 5), stated_hz: given };
    // Rows that came twice bend the mean step: where a usual tick is next to it, that one is meant.
    const usual = facts.counts
      ? undefined
      : [...UNITS, ...RARE_UNITS].find(({ seconds }) => Math.abs(rateOf(seconds) / given - 1) < NEXT_TO);
    if (usual) return made(usual, because('by_next_rate', stated), source);
    const unit = own(facts.counts ? 'rows' : 'ticks', 1 / ((facts.counts ? 1 : interval) * given));
    return made(unit, because('by_step_at_rate', stated), source);
  }
  return withoutWord({ facts, plausible, isTicks, motion, made, situation });
}

/** A usual tick is meant where it gives the stated rate this nearly. */
const NEXT_TO = 0.01;
const shown = (rate: number) => significant(rate, 4);

function lazily(situation: TimeSituation): () => Motion | null {
  let known: Motion | null | undefined;
  return () => {
    if (known === undefined) known = situation.motion?.() ?? null;
    return known;
  };
}

type Made = (unit: TimeUnit, why: CodedReason, source: Evidence['source']) => TimeColumns;

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
    return made(unit, because('by_written_unit', { hz: shown(rateOf(written.to_si)) }), 'written');
  const offered = better.length > 0 ? better : others.filter((other) => UNITS.includes(other));
  throw new LayoutQuestion(file, {
    about: 'time unit',
    found: because('found_time_misfit', {
      column: toldColumn(column),
      unit: written.unit,
      step: significant(interval, 4),
      hz: shown(rateOf(written.to_si)),
      motion: better.length > 0,
    }),
    choices: [...offered, unit].map(({ unit: name, seconds }) => ({
      label: because('choice_rate', { unit: name, hz: shown(rateOf(seconds)) }),
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
  const gives = (unit: TimeUnit) => ({ step: significant(interval, 4), hz: shown(rateOf(unit.seconds)) });
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
  if (best && !aCount && usual && alone) return made(best, because('by_motion', gives(best)), 'measured');
  const judged =
    known !== null &&
    (fitting.length > 0 || plausible.some(({ seconds }) => fitOfPeriod(known, interval * seconds) === 'not'));
  const [single] = plausible;
  const rival = single !== undefined && doubtful(single);
  if (plausible.length === 1 && !counts && !isTicks && !judged && !rival) {
    return made(single, because('by_only_unit', gives(single)), 'measured');
  }
  const units = [...new Set([...fitting, ...plausible, ...(plausible.length === 0 || rival || judged ? rare : [])])];
  const choices: LayoutChoice[] = units.map(({ unit, seconds }) => ({
    label: because('choice_rate', { unit, hz: shown(rateOf(seconds)) }),
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
      column: toldColumn(column),
      step: significant(interval, 5),
    }),
    choices,
    hint: because('do_rate', { hz: rates[0] ?? 500, example: JSON.stringify(choices[0].correction) }),
  });
}
