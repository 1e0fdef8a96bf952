import { phrasesOf } from '../../app/language.ts';
import { accessWords } from '../../../shared/messages/en/view/access.ts';
import './access.css';
import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { AccessState, DeviceRole } from '../../../shared/schemas/access.ts';
import { isPage, type PageProps } from '../../app/router.ts';
import { useResource } from '../../app/use-resource.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { accessApi, accessPaths, roleChoices } from './access-api.ts';

const t = phrasesOf('access', accessWords);

/** Where each role begins its work. */
const START = {
  coach: '/sessions',
  field: '/field',
  display: '/field',
  scientist: '/research',
  keeper: '/archive',
} as const;

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
      const state = await accessApi.pair(code, name.trim() || t('a_device_without_a_name'));
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
        <h1>{me.value?.here ? t('this_machine_needs_no_pairing') : t('paired')}</h1>
        <p>
          {me.value?.here
            ? t('cinderlane_runs_here')
            : t('this_device_may_use', { role: mayOf(role, me.value!.roles) })}{' '}
          <a href={isPage(START[role]) ? `#${START[role]}` : '#/'}>{t('go_on')}</a>
        </p>
      </>
    );
  }
  return (
    <>
      <h1>{t('pair_this_device')}</h1>
      <p>
        {t('on_the_machine_that_cinderlane')}
        <strong>{t('more_devices')}</strong>
        {t('and_ask_for_a_pairing')}
      </p>
      {fault && <FaultBox fault={fault} />}
      <form class="card access-form" onSubmit={pair}>
        <label class="field">
          <span>{t('code_six_digits')}</span>
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
          label={t('name_of_this_device')}
          value={name}
          onChange={setName}
          placeholder={t('phone_at_the_finish')}
          help={t('by_this_name_it_stands')}
        />
        <button type="submit" class="primary" disabled={busy || code.trim() === ''}>
          {t('pair')}
        </button>
      </form>
      <p class="small quiet">
        {t('did_the_browser_warn_about')}
        <a href="#/trust">{t('let_this_phone_trust_it')}</a>
        {t('once')}
      </p>
    </>
  );
}

function mayOf(role: DeviceRole, roles: readonly DeviceRole[]): string {
  return roleChoices(roles).find((choice) => choice.value === role)?.may ?? role;
}
