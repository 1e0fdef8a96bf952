import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { AccessState } from '../../../shared/schemas/access.ts';
import type { Resource } from '../../app/use-resource.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { accessApi } from './access-api.ts';

/** Lets a paired device do, for ten minutes, what gives names away or cannot be undone. */
export function ConfirmForm({ me }: { me: Resource<AccessState> }) {
  const [code, setCode] = useState('');
  const [fault, setFault] = useState<Fault | null>(null);
  const until = me.value?.confirmed_until_utc;

  async function confirm(event: Event) {
    event.preventDefault();
    try {
      me.set(await accessApi.confirm(code));
      setFault(null);
      setCode('');
    } catch (error) {
      setFault(faultOf(error));
    }
  }

  if (until) return <p role="status">Confirmed until {new Date(until).toLocaleTimeString()}.</p>;
  return (
    <section>
      <h2>Confirm this device</h2>
      <p>
        Erasing, a copy of a person, consent and pairing others need a confirmation code, which the machine that
        Cinderlane runs on shows on this same page.
      </p>
      {fault && <FaultBox fault={fault} />}
      <form class="access-form" onSubmit={confirm}>
        <TextField label="Confirmation code" value={code} onChange={setCode} required />
        <button type="submit">Confirm</button>
      </form>
    </section>
  );
}
