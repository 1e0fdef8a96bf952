import type { ContactQuantity, RepetitionResult } from '../../../shared/analysis.ts';
import type { ProfileBaseline } from '../../../shared/schemas/repetition.ts';
import { displayOf, formatNumber, formatQuantity } from '../../app/format.ts';
import { beyondNormal } from '../../parts/figure-tile.tsx';
import { normalOf } from './normal-of.ts';
import { hasAtSpeed, reasonFor } from './repetition-figures.tsx';

/** Words for 'more' and 'less' of a quantity. */
const DIRECTION: Partial<Record<ContactQuantity, [string, string]>> = {
  contact_time_ms: ['longer', 'shorter'],
  flight_time_ms: ['longer', 'shorter'],
  step_rate_hz: ['higher', 'lower'],
  step_length_m: ['longer', 'shorter'],
};

/**
 * One plain sentence: what stood out against the athlete's normal, or that nothing did, with how sure that is.
 * `beyond` is true when something lies beyond normal variation.
 */
export function sayHeadline(
  result: RepetitionResult,
  baseline: ProfileBaseline | null,
): { text: string; beyond: boolean } {
  const atSpeed = hasAtSpeed(result);
  const means = atSpeed ? result.summary.at_speed : result.summary.all;
  const contact = means.contact_time_ms;
  const where = atSpeed ? 'at speed' : 'over the whole repetition';
  if (!contact) {
    const reason = reasonFor(result, 'contact_time_ms');
    return { text: `Contact time could not be measured${reason ? `: ${reason}` : '.'}`, beyond: false };
  }
  const value = `Contact time ${where} ${formatQuantity('contact_time_ms', contact.mean, contact.mean_u)}`;
  if (!baseline || baseline.n === 0 || !atSpeed)
    return { text: `${value}, over ${contact.n} contacts.`, beyond: false };

  const sure = baseline.provisional ? ` (provisional: normal rests on ${baseline.n} so far)` : '';
  const stands = (Object.keys(DIRECTION) as ContactQuantity[]).flatMap((quantity) => {
    const away = beyondNormal(means[quantity]?.mean, normalOf(baseline, quantity));
    return away === null ? [] : [sayAway(quantity, away)];
  });
  if (stands.length > 0) {
    return { text: `${capital(list(stands))} than normal, beyond normal variation${sure}.`, beyond: true };
  }
  const normal = normalOf(baseline, 'contact_time_ms');
  if (!normal) return { text: `${value}, over ${contact.n} contacts.`, beyond: false };
  const range = `${formatNumber(normal.centre, 0)} ± ${formatNumber(normal.flag_from, 0)} ms`;
  return { text: `${value}: within normal, ${range}${sure}.`, beyond: false };
}

function sayAway(quantity: ContactQuantity, away: number): string {
  const { label } = displayOf(quantity);
  const [more, less] = DIRECTION[quantity]!;
  return `${label} ${formatQuantity(quantity, Math.abs(away))} ${away > 0 ? more : less}`;
}

function list(words: string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
