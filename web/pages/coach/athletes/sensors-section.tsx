import { phrasesOf } from '../../../app/language.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { mountingChoices } from '../../../app/mounting-words.ts';
import { useState } from 'preact/hooks';
import type { AthleteRecord, AthleteSensor } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { faultOf } from '../../../client.ts';
import { Choice } from '../../../parts/choice.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { coachApi } from '../coach-api.ts';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('athletes', athletesWords);

interface SensorsSectionProps {
  record: AthleteRecord;
  onChanged: () => Promise<void>;
}

/** Which sensor this athlete usually wears where. */
export function SensorsSection({ record, onChanged }: SensorsSectionProps) {
  const of = (side: 'left' | 'right') => record.sensors.find((sensor) => sensor.side === side);
  const [left, setLeft] = useState(of('left')?.sensor_name ?? '');
  const [right, setRight] = useState(of('right')?.sensor_name ?? '');
  const [mounting, setMounting] = useState<AthleteSensor['mounting']>(record.sensors[0]?.mounting ?? 'foot');
  const [state, setState] = useState<'as stored' | 'changed'>('as stored');
  const [fault, setFault] = useState<Fault | null>(null);
  const save = async () => {
    setFault(null);
    try {
      const items = [
        { side: 'left' as const, sensor_name: left.trim(), mounting },
        { side: 'right' as const, sensor_name: right.trim(), mounting },
      ].filter((sensor) => sensor.sensor_name !== '');
      await coachApi.setSensors(record.athlete.athlete_id, items);
      await onChanged();
      setState('as stored');
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  const change = <T,>(set: (value: T) => void) => {
    return (value: T) => {
      set(value);
      setState('changed');
    };
  };
  return (
    <form
      class="sheet"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <h2>{common('sensors')}</h2>
      {fault && <FaultBox fault={fault} />}
      <div class="field-grid">
        <TextField label={t('left')} value={left} onChange={change(setLeft)} placeholder={t('name_on_the_sensor')} />
        <TextField label={t('right')} value={right} onChange={change(setRight)} placeholder={t('name_on_the_sensor')} />
      </div>
      <Choice legend={t('worn_on_the')} value={mounting} options={mountingChoices()} onChange={change(setMounting)} />
      <button type="submit" class={state === 'changed' ? 'primary' : undefined} disabled={state === 'as stored'}>
        {state === 'as stored' ? t('saved') : common('save')}
      </button>
    </form>
  );
}
