import { athleteBaseline } from '../../dsp/athlete/baseline.ts';
import { STEP_QUANTITIES } from '../../shared/fields.ts';
import type { ProfileBaseline, RepetitionLine, RepetitionProfile } from '../../shared/schemas/repetition.ts';
import { isGrowing } from './growth.ts';
import { listContacts } from '../store/analyses.ts';
import { getRepetitionLine, listRepetitions } from '../store/repetitions.ts';
import type { Store } from '../store/store.ts';
import { baselineBand, type ProfileRow } from './baseline-band.ts';
import { comparableRepetitions } from './comparable-repetitions.ts';
import { dayNumber } from '../../shared/dates.ts';

/** A repetition's stride profile over what is normal for its athlete, with the day's earlier repetitions. */
export function readProfile(store: Store, repetitionId: number): RepetitionProfile {
  const repetition = getRepetitionLine(store, repetitionId);
  const contactsOf = (line: RepetitionLine) => (line.analysis_id === null ? [] : listContacts(store, line.analysis_id));
  const earlierToday = listRepetitions(store, {
    session_id: repetition.session_id,
    athlete_id: repetition.athlete_id,
  }).filter((line) => line.order_number < repetition.order_number && line.analysis_id !== null);
  return {
    repetition_id: repetitionId,
    contacts: contactsOf(repetition),
    baseline: profileBaseline(store, repetition),
    earlier_today: earlierToday.map((line) => ({
      repetition_id: line.repetition_id,
      order_number: line.order_number,
      contacts: contactsOf(line),
    })),
  };
}

/** Baselines already computed, by everything they rest on. A day's repetitions of one kind share theirs. */
const computed = new Map<string, ProfileBaseline>();
const MOST_COMPUTED = 200;

function profileBaseline(store: Store, repetition: RepetitionLine): ProfileBaseline {
  const earlier = comparableRepetitions(store, repetition);
  const options = {
    day: dayNumber(repetition.session_date),
    adolescent: isGrowing(store, repetition.athlete_id, repetition.session_date),
  };
  // An analysis never changes, so its identifier stands for all of its values.
  const basis = earlier.map((line) => [line.analysis_id, line.session_id, line.session_date]);
  const key = JSON.stringify([store.instance, options, basis]);
  const known = computed.get(key);
  if (known) return known;
  const baseline = computeBaseline(store, earlier, options);
  if (computed.size >= MOST_COMPUTED) computed.clear();
  computed.set(key, baseline);
  return baseline;
}

function computeBaseline(
  store: Store,
  earlier: RepetitionLine[],
  options: { day: number; adolescent: boolean },
): ProfileBaseline {
  const rows = profileRows(store, earlier);
  const quantities = Object.fromEntries(
    STEP_QUANTITIES.map((quantity) => [quantity, baselineBand(rows, earlier, quantity, options)]),
  );
  const whole = athleteBaseline(
    earlier.map((line) => ({ value: 1, session: line.session_id, day: dayNumber(line.session_date) })),
    { quantity: 'contacts', ...options },
  );
  return {
    n: whole?.n ?? 0,
    provisional: whole?.provisional ?? true,
    quantities,
  };
}

/** The profile quantities of every contact of the given repetitions, by repetition. */
function profileRows(store: Store, lines: RepetitionLine[]): Map<number, ProfileRow[]> {
  const columns = ['step', 'distance_m', ...STEP_QUANTITIES].join(', ');
  const select = store.prepare(`SELECT ${columns} FROM contacts WHERE analysis_id = ? ORDER BY step`);
  return new Map(lines.map((line) => [line.repetition_id, select.all(line.analysis_id) as ProfileRow[]]));
}
