import { useState } from 'preact/hooks';
import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { Fault } from '../../../shared/fault.ts';
import type { ArchiveClub, NewArchiveRun } from '../../../shared/schemas/archive.ts';
import { phrasesOf } from '../../app/language.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { archiveApi } from './archive-api.ts';

const t = phrasesOf('archive', archiveWords);

const ALL = '';

/** Gives workers a selection to analyse again. Nothing that clubs see changes by it. */
export function StartRun({ clubs, onStarted }: { clubs: ArchiveClub[]; onStarted: () => Promise<void> }) {
  const [club, setClub] = useState(ALL);
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const [settings, setSettings] = useState('');
  const [fault, setFault] = useState<Fault | null>(null);
  const [said, setSaid] = useState('');

  async function start(event: Event) {
    event.preventDefault();
    setSaid('');
    setFault(null);
    const read = readSettings(settings);
    if ('wrong' in read) return setSaid(t('no_json', { why: read.wrong }));
    const order: NewArchiveRun = {
      ...(club === ALL ? {} : { club }),
      ...(from === '' ? {} : { from }),
      ...(to === '' ? {} : { to }),
      ...read,
    };
    try {
      const { total } = await archiveApi.start(order);
      setSaid(t('given', { n: total }));
      await onStarted();
    } catch (error) {
      setFault(faultOf(error));
    }
  }

  return (
    <details class="start-run">
      <summary>{t('analyse_again')}</summary>
      <form onSubmit={(event) => void start(event)}>
        <p>{t('analyse_again_help')}</p>
        <div class="field-grid">
          <SelectField
            label={t('which_club')}
            value={club}
            options={[
              { value: ALL, label: t('all_clubs') },
              ...clubs.map(({ name }) => ({ value: name, label: name })),
            ]}
            onChange={setClub}
          />
          <TextField label={t('from_day')} type="date" value={from} onChange={setFrom} />
          <TextField label={t('to_day')} type="date" value={to} onChange={setTo} />
        </div>
        <label class="field">
          <span>{t('settings_json')}</span>
          <textarea
            rows={3}
            spellcheck={false}
            value={settings}
            onInput={(event) => setSettings(event.currentTarget.value)}
          />
          <span class="small quiet">{t('settings_help')}</span>
        </label>
        {fault && <FaultBox fault={fault} />}
        {said && <p role="status">{said}</p>}
        <button type="submit">{t('start')}</button>
      </form>
    </details>
  );
}

/** Whether it is JSON; whether it is settings, the server says. */
function readSettings(text: string): Pick<NewArchiveRun, 'settings'> | { wrong: string } {
  if (text.trim() === '') return {};
  try {
    return { settings: JSON.parse(text) as Record<string, unknown> };
  } catch (error) {
    return { wrong: error instanceof Error ? error.message : String(error) };
  }
}
