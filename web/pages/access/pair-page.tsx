import './access.css';
import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { AccessState } from '../../../shared/schemas/access.ts';
import type { PageProps } from '../../app/router.ts';
import { useResource } from '../../app/use-resource.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { accessApi, accessPaths, ROLE_CHOICES } from './access-api.ts';

/** Where each role begins its work. */
const START = { coach: '#/sessions', field: '#/field', display: '#/field', scientist: '#/research' } as const;

/** What a device on the network sees until it is paired: one code, one name. */
export default function PairPage({ query }: PageProps) {
  const me = useResource<AccessState>(accessPaths.me);
  const linked = query.get('code') ?? '';
  const [code, setCode] = useState(linked);
  useEffect(() => setCode(linked), [linked]);
  const [name, setName] = useState('');
  const [fault, setFault] = useState<Fault | null>(null);
  const [busy, setBusy] = useState(false);

  async function pair(event: Event) {
    event.preventDefault();
    setBusy(true);
    try {
      const state = await accessApi.pair(code, name.trim() || 'a device without a name');
      setFault(null);
      me.set(state);
    } catch (error) {
      setFault(faultOf(error));
    }
    setBusy(false);
  }

  const role = me.value?.role;
  if (role) {
    return (
      <>
        <h1>{me.value?.here ? 'This machine needs no pairing' : 'Paired'}</h1>
        <p>
          {me.value?.here ? 'Cinderlane runs here.' : `This device may use: ${mayOf(role)}.`}{' '}
          <a href={START[role]}>Go on</a>
        </p>
      </>
    );
  }
  return (
    <>
      <h1>Pair this device</h1>
      <p>
        On the machine that Cinderlane runs on, open <strong>More, Devices</strong> and ask for a pairing code. It is
        good for two minutes.
      </p>
      {fault && <FaultBox fault={fault} />}
      <form class="card access-form" onSubmit={pair}>
        <label class="field">
          <span>Code, six digits</span>
          <input
            class="access-code-input"
            value={code}
            inputMode="numeric"
            autocomplete="one-time-code"
            required
            maxLength={8}
            onInput={(event) => setCode(event.currentTarget.value)}
          />
        </label>
        <TextField
          label="Name of this device"
          value={name}
          onChange={setName}
          placeholder="phone at the finish"
          help="By this name it stands in the list of devices, where it can be revoked."
        />
        <button type="submit" class="primary" disabled={busy || code.trim() === ''}>
          Pair
        </button>
      </form>
      <p class="small quiet">
        Did the browser warn about the address? <a href="#/trust">Let this phone trust it</a>, once.
      </p>
    </>
  );
}

function mayOf(role: (typeof ROLE_CHOICES)[number]['value']): string {
  return ROLE_CHOICES.find((choice) => choice.value === role)?.may ?? role;
}
