import { dateLocale, phrasesOf } from '../../app/language.ts';
import { accessWords } from '../../../shared/messages/en/view/access.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { AccessState } from '../../../shared/schemas/access.ts';
import type { Resource } from '../../app/use-resource.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { accessApi } from './access-api.ts';

const t = phrasesOf('access', accessWords);

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

  if (until)
    return <p role="status">{t('confirmed_until', { time: new Date(until).toLocaleTimeString(dateLocale()) })}</p>;
  return (
    <section>
      <h2>{t('confirm_this_device')}</h2>
      <p>{t('erasing_a_copy_of_a')}</p>
      {fault && <FaultBox fault={fault} />}
      <form class="access-form" onSubmit={confirm}>
        <TextField label={t('confirmation_code')} value={code} onChange={setCode} required />
        <button type="submit">{t('confirm')}</button>
      </form>
    </section>
  );
}
