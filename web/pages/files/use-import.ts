import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { Import } from '../../../shared/schemas/import.ts';
import { api } from '../../api.ts';
import type { SentImport } from './recording-draft.ts';
import { faultOf } from '../../client.ts';

const ENDED = new Set(['done', 'failed', 'cancelled']);
/** Between questions while the event stream is cut, ms. */
const ASK_AGAIN_MS = 1500;

export interface ImportProgress {
  value: Import | null;
  fault: Fault | null;
  /** Follows the import again after a retry. */
  follow: () => void;
}

/**
 * Follows an import to its end by server-sent events; where the stream is cut, by asking.
 */
export function useImport({ begun, release }: SentImport): ImportProgress {
  const [value, setValue] = useState<Import | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const [round, setRound] = useState(0);

  useEffect(() => {
    let current = true;
    let source: EventSource | null = null;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const take = (next: Import) => {
      if (!current) return;
      setValue(next);
      setFault(null);
      if (ENDED.has(next.state)) {
        source?.close();
        release();
      }
    };
    const ask = async (import_id: number) => {
      try {
        const next = await api.import(import_id);
        take(next);
        if (ENDED.has(next.state)) return;
      } catch (error) {
        if (current) setFault(faultOf(error));
      }
      if (current) timer = setTimeout(() => void ask(import_id), ASK_AGAIN_MS);
    };
    begun.then(
      (import_id) => {
        if (!current) return;
        source = new EventSource(`/api/imports/${import_id}/events`);
        for (const name of ['progress', ...ENDED]) {
          source.addEventListener(name, (event) => take(JSON.parse((event as MessageEvent<string>).data) as Import));
        }
        source.onerror = () => {
          source?.close();
          void ask(import_id);
        };
      },
      (error) => {
        release();
        if (current) setFault(faultOf(error));
      },
    );
    return () => {
      current = false;
      release();
      source?.close();
      clearTimeout(timer);
    };
  }, [begun, release, round]);

  return { value, fault, follow: () => setRound((n) => n + 1) };
}
