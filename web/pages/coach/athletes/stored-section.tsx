import { useState } from 'preact/hooks';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { count } from '../../../app/describe.ts';
import { go } from '../../../app/router.ts';
import { client, faultOf } from '../../../client.ts';
import { Dialog } from '../../../parts/dialog.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import type { EraseReceipt } from '../../../../shared/schemas/coach/erase-receipt.ts';
import { coachApi } from '../coach-api.ts';

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
      offerUndo(`${athlete.name} deleted`, async () => {
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
      <h2>What is stored, and where</h2>
      <p>
        {count(stored.sessions, 'session')}, {count(stored.repetitions, 'repetition')},{' '}
        {count(stored.recordings, 'recording')} ({(stored.raw_bytes / 1e6).toFixed(1)} MB),{' '}
        {count(stored.sprint_tests, 'sprint test')}, {count(stored.strength_records, 'strength record')}, and what
        stands above on this page. All of it lies in one file on the machine that runs Cinderlane (
        <code>{stored.file}</code>); nothing is sent anywhere. Backups you made hold copies.
      </p>
      <p>For minors: ask the athlete and a parent before you record, and give them this file when they ask for it.</p>
      {fault && !erasing && <FaultBox fault={fault} />}
      <div class="actions">
        <a class="button" href={`/api/coach/athletes/${athlete.athlete_id}/everything.zip`} download>
          Take everything along (zip)
        </a>
        <button type="button" onClick={() => void remove()}>
          Delete {athlete.name}
        </button>
        <button type="button" onClick={() => setErasing(true)}>
          Erase for good ...
        </button>
      </div>
      <p class="quiet small">
        Deleting hides the athlete everywhere and can be undone. Erasing takes every row and recording out of the file;
        it cannot be undone.
      </p>
      <Dialog title="Erased" open={receipt !== null} onClose={() => go('/athletes')}>
        {receipt && <ErasedNote receipt={receipt} />}
        <p class="actions">
          <button type="button" class="primary" onClick={() => go('/athletes')}>
            To the athletes
          </button>
        </p>
      </Dialog>
      <Dialog
        title={`Erase ${athlete.name} for good`}
        open={erasing && receipt === null}
        onClose={() => setErasing(false)}
      >
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void erase();
          }}
        >
          <p>
            Every repetition, recording, test, note and measure of {athlete.name} goes. This cannot be undone. Take
            everything along first if anyone may still want it.
          </p>
          {fault && <FaultBox fault={fault} />}
          <TextField label={`Type the name to confirm: ${athlete.name}`} value={typed} onChange={setTyped} />
          <p class="actions">
            <button type="submit" disabled={typed.trim() !== athlete.name.trim()}>
              Erase for good
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
      <p>Every row and file of this person is gone from the database and from what sensors sent.</p>
      {still_named_in.length > 0 ? (
        <>
          <p>The name still stands in texts that belong to others; change them by hand:</p>
          <ul>
            {still_named_in.map(({ table, column, rows }) => (
              <li key={`${table}.${column}`}>
                {table}, {column}: {count(rows, 'place')}
              </li>
            ))}
          </ul>
        </>
      ) : (
        <p>The name stands nowhere else in the database.</p>
      )}
      <p>
        Backups made before still hold the person: delete them, or make new ones.
        {exports > 0 && ` ${count(exports, 'research export')} made earlier held this person under a pseudonym.`}
      </p>
    </>
  );
}
