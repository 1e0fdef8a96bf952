import { MOUNTING_CHOICES } from '../../../../shared/mountings.ts';
import { useState } from 'preact/hooks';
import type { AthleteRecord, AthleteSensor } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { faultOf } from '../../../client.ts';
import { Choice } from '../../../parts/choice.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { coachApi } from '../coach-api.ts';

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
      <h2>Sensors</h2>
      {fault && <FaultBox fault={fault} />}
      <div class="field-grid">
        <TextField label="Left" value={left} onChange={change(setLeft)} placeholder="name on the sensor" />
        <TextField label="Right" value={right} onChange={change(setRight)} placeholder="name on the sensor" />
      </div>
      <Choice legend="Worn on the" value={mounting} options={MOUNTING_CHOICES} onChange={change(setMounting)} />
      <button type="submit" class={state === 'changed' ? 'primary' : undefined} disabled={state === 'as stored'}>
        {state === 'as stored' ? 'Saved' : 'Save'}
      </button>
    </form>
  );
}
