import { useEffect, useRef, useState } from 'preact/hooks';
import type {
  CaptureState,
  ContactsEvent,
  RepetitionEvent,
  SignalEvent,
  StoredEvent,
} from '../../../shared/schemas/capture.ts';
import type { Fault } from '../../../shared/fault.ts';
import { faultOf } from '../../client.ts';
import { live } from './live-api.ts';
import { SignalRing } from './signal-ring.ts';

const RESULTS = 30;

export interface LiveResult extends RepetitionEvent {
  repetition_id: number | null;
}

export interface Capture {
  state: CaptureState | null;
  /** False while the server does not answer; the browser tries again by itself. */
  connected: boolean;
  /** Why this device may not follow the capture; null where it may, or the server does not answer at all. */
  refused: Fault | null;
  /** Repetitions being run, one an athlete. */
  running: ContactsEvent[];
  /** Results of the latest capture and of this visit, newest first; `repetition_id` follows when it is stored. */
  results: LiveResult[];
  /** Signals by sensor; filled without drawing the page anew. */
  signals: Map<string, SignalRing>;
}

/** Follows the capture while the page is open. */
export function useCapture(): Capture {
  const [state, setState] = useState<CaptureState | null>(null);
  const [connected, setConnected] = useState(true);
  const [refused, setRefused] = useState<Fault | null>(null);
  const [running, setRunning] = useState<ContactsEvent[]>([]);
  const [results, setResults] = useState<LiveResult[]>([]);
  const signals = useRef(new Map<string, SignalRing>());

  useEffect(() => {
    const source = new EventSource(live.eventsUrl);
    const on = <T>(name: string, take: (value: T) => void) =>
      source.addEventListener(name, (event) => take(JSON.parse((event as MessageEvent<string>).data) as T));
    source.onopen = () => {
      setConnected(true);
      setRefused(null);
      // The server tells what is recent again, to whoever comes or comes back.
      signals.current.clear();
    };
    source.onerror = () => {
      setConnected(false);
      // A stream does not say why it was refused; the same question by itself does.
      live.state().then(
        () => setRefused(null),
        (error) => setRefused(refusalIn(faultOf(error))),
      );
    };
    on<CaptureState>('state', (value) => {
      setState(value);
      if (value.capture === null) setRunning([]);
    });
    on<SignalEvent>('signal', (value) => {
      const ring = signals.current.get(value.sensor_id) ?? new SignalRing();
      signals.current.set(value.sensor_id, ring);
      ring.add(value);
    });
    const others = (list: ContactsEvent[], athlete_id: number | null) =>
      list.filter((entry) => entry.athlete_id !== athlete_id);
    on<ContactsEvent>('contacts', (value) => setRunning((list) => [...others(list, value.athlete_id), value]));
    on<RepetitionEvent>('repetition', (value) => {
      setRunning((list) => others(list, value.athlete_id));
      setResults((list) => {
        const known = list.find((result) => result.key === value.key);
        const others = list.filter((result) => result !== known);
        return [{ ...value, repetition_id: known?.repetition_id ?? null }, ...others].slice(0, RESULTS);
      });
    });
    on<StoredEvent>('stored', ({ key, repetition_id }) =>
      setResults((list) => list.map((result) => (result.key === key ? { ...result, repetition_id } : result))),
    );
    return () => source.close();
  }, []);

  return { state, connected, refused, running, results, signals: signals.current };
}

function refusalIn(fault: Fault): Fault | null {
  return ['ROLE_REFUSED', 'DEVICE_UNKNOWN', 'TOO_MANY_REQUESTS'].includes(fault.code) ? fault : null;
}
