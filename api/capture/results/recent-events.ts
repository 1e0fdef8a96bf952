import type { ContactsEvent, RepetitionEvent, SignalEvent, StoredEvent } from '../../../shared/schemas/capture.ts';

/** As many as a page shows: results, and seconds of signal. */
const RESULTS = 30;
const SIGNAL_S = 8;

type Event = 'state' | 'signal' | 'contacts' | 'repetition' | 'stored';

/**
 * What a page that is opened or loaded anew in mid-capture must know of what was told before: the contacts of who runs now, the
 * results so far, the last seconds of signal. Of the latest capture; the next one begins anew.
 */
export class RecentEvents {
  private running = new Map<number | null, ContactsEvent>();
  private results: RepetitionEvent[] = [];
  private stored: StoredEvent[] = [];
  private signals = new Map<string, SignalEvent>();

  add(event: Event, value: unknown): void {
    if (event === 'contacts') {
      const contacts = value as ContactsEvent;
      this.running.set(contacts.athlete_id, contacts);
    }
    if (event === 'repetition') {
      const result = value as RepetitionEvent;
      this.running.delete(result.athlete_id);
      this.results = [...this.results, result].slice(-RESULTS);
    }
    if (event === 'stored') this.stored = [...this.stored, value as StoredEvent].slice(-RESULTS);
    if (event === 'signal') {
      const signal = value as SignalEvent;
      this.signals.set(signal.sensor_id, joined(this.signals.get(signal.sensor_id), signal));
    }
  }

  /** In the order in which a page that was there has seen them. */
  all(): { event: Event; value: unknown }[] {
    const told = (event: Event, values: Iterable<unknown>) => Array.from(values, (value) => ({ event, value }));
    return [
      ...told('repetition', this.results),
      ...told('stored', this.stored),
      ...told('contacts', this.running.values()),
      ...told('signal', this.signals.values()),
    ];
  }

  clear(): void {
    this.running.clear();
    this.results = [];
    this.stored = [];
    this.signals.clear();
  }
}

function joined(before: SignalEvent | undefined, now: SignalEvent): SignalEvent {
  const keep = Math.round(SIGNAL_S / now.step_s);
  const low_mps2 = [...(before?.low_mps2 ?? []), ...now.low_mps2].slice(-keep);
  const high_mps2 = [...(before?.high_mps2 ?? []), ...now.high_mps2].slice(-keep);
  const end_s = now.from_s + now.low_mps2.length * now.step_s;
  return { ...now, from_s: end_s - low_mps2.length * now.step_s, low_mps2, high_mps2 };
}
