import { phrasesOf } from '../app/language.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Fault } from '../../shared/fault.ts';
import { faultOf } from '../client.ts';
import { FaultBox } from './fault-box.tsx';

const common = phrasesOf('common', commonWords);

const unexpected = signal<Fault | null>(null);

/** What failed where no form was waiting for it, such as a deletion without a network: said at the head of the page. */
export function Unexpected({ path }: { path: string }) {
  useEffect(() => {
    const onRejection = (event: PromiseRejectionEvent) => {
      event.preventDefault();
      unexpected.value = faultOf(event.reason);
      window.scrollTo(0, 0);
    };
    window.addEventListener('unhandledrejection', onRejection);
    return () => window.removeEventListener('unhandledrejection', onRejection);
  }, []);
  useEffect(() => {
    unexpected.value = null;
  }, [path]);
  if (!unexpected.value) return null;
  return (
    <>
      <FaultBox fault={unexpected.value} />
      <p>
        <button
          type="button"
          onClick={() => {
            unexpected.value = null;
          }}
        >
          {common('close')}
        </button>
      </p>
    </>
  );
}
