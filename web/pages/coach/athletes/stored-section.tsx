import { formatNumber } from '../../../app/format.ts';
import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import { useState } from 'preact/hooks';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { go } from '../../../app/router.ts';
import { client, faultOf } from '../../../client.ts';
import { Dialog } from '../../../parts/dialog.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import type { EraseReceipt } from '../../../../shared/schemas/coach/erase-receipt.ts';
import { coachApi } from '../coach-api.ts';

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

/** What is stored about the person and where; taking it along, deleting it, erasing it for good. */
export function StoredSection({ record }: { record: AthleteRecord }) {
  const { athlete, stored } = record;
  const [erasing, setErasing] = useState(false);
  const [typed, setTyped] = useState('');
  const [receipt, setReceipt] = useState<EraseReceipt | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const remove = async () => {
    setFault(null);
    try {
      await client.remove(`/athletes/${athlete.athlete_id}`);
      offerUndo(t('deleted_2', { name: athlete.name }), async () => {
        await client.post(`/athletes/${athlete.athlete_id}/restore`);
        go(`/athletes/${athlete.athlete_id}`);
      });
      go('/athletes');
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  const erase = async () => {
    setFault(null);
    try {
      setReceipt(await coachApi.eraseAthlete(athlete.athlete_id, typed));
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  return (
    <section class="sheet">
      <h2>{t('what_is_stored_and_where')}</h2>
      <p>
        {t('mb_and_what_stands_above', {
          sessions: common('n_sessions', { n: stored.sessions }),
          repetitions: common('repetitions', { n: stored.repetitions }),
          recordings: common('n_recordings', { n: stored.recordings }),
          raw_bytes: formatNumber(stored.raw_bytes / 1e6, 1),
          sprint_tests: common('n_sprint_tests', { n: stored.sprint_tests }),
          strength_records: common('n_strength_records', { n: stored.strength_records }),
        })}
        <code>{stored.file}</code>
        {t('nothing_is_sent_anywhere_backups')}
      </p>
      <p>{t('for_minors_ask_the_athlete')}</p>
      {fault && !erasing && <FaultBox fault={fault} />}
      <div class="actions">
        <a class="button" href={`/api/coach/athletes/${athlete.athlete_id}/everything.zip`} download>
          {t('take_everything_along_zip')}
        </a>
        <button type="button" onClick={() => void remove()}>
          {t('delete', { name: athlete.name })}
        </button>
        <button type="button" onClick={() => setErasing(true)}>
          {t('erase_for_good')}
        </button>
      </div>
      <p class="quiet small">{t('deleting_hides_the_athlete_everywhere')}</p>
      <Dialog title={t('erased')} open={receipt !== null} onClose={() => go('/athletes')}>
        {receipt && <ErasedNote receipt={receipt} />}
        <p class="actions">
          <button type="button" class="primary" onClick={() => go('/athletes')}>
            {t('to_the_athletes')}
          </button>
        </p>
      </Dialog>
      <Dialog
        title={t('erase_for_good_2', { name: athlete.name })}
        open={erasing && receipt === null}
        onClose={() => setErasing(false)}
      >
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void erase();
          }}
        >
          <p>{t('every_repetition_recording_test_note', { name: athlete.name })}</p>
          {fault && <FaultBox fault={fault} />}
          <TextField label={t('type_the_name_to_confirm', { name: athlete.name })} value={typed} onChange={setTyped} />
          <p class="actions">
            <button type="submit" disabled={typed.trim() !== athlete.name.trim()}>
              {t('erase_for_good_3')}
            </button>
          </p>
        </form>
      </Dialog>
    </section>
  );
}

/** What is left to do by hand after an erasure. */
function ErasedNote({ receipt }: { receipt: EraseReceipt }) {
  const { still_named_in, exports } = receipt;
  return (
    <>
      <p>{t('every_row_and_file_of')}</p>
      {still_named_in.length > 0 ? (
        <>
          <p>{t('the_name_still_stands_in')}</p>
          <ul>
            {still_named_in.map(({ table, column, rows }) => (
              <li key={`${table}.${column}`}>
                {table}, {column}: {common('n_places', { n: rows })}
              </li>
            ))}
          </ul>
        </>
      ) : (
        <p>{t('the_name_stands_nowhere_else')}</p>
      )}
      <p>
        {t('backups_made_before_still_hold')}
        {exports > 0 && t('made_earlier_held_this_person', { exports: common('n_research_exports', { n: exports }) })}
      </p>
    </>
  );
}
