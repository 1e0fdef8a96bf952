import type { FileColumn } from '../../../shared/schemas/layout-preview.ts';
import type { Side } from '../../../shared/words.ts';
import { SelectField } from '../select-field.tsx';
import type { Arrangement, LayoutDraft } from './draft.ts';

interface SensorFieldsProps {
  draft: LayoutDraft;
  columns: FileColumn[];
  /** Said elsewhere, as by the slot a file was put in; null where it is to be said here. */
  side: Side | null;
  onChange: (draft: LayoutDraft) => void;
}

const ARRANGEMENTS: { value: Arrangement; label: string }[] = [
  { value: 'one', label: 'one sensor' },
  { value: 'columns', label: 'left and right side by side' },
  { value: 'rows', label: 'left and right by turns' },
];
const SIDES: { value: Side; label: string }[] = [
  { value: 'unknown', label: 'not said' },
  { value: 'left', label: 'left' },
  { value: 'right', label: 'right' },
];

/** How many sensors the file holds, how they are told apart, and which foot is whose. */
export function SensorFields({ draft, columns, side, onChange }: SensorFieldsProps) {
  const { arrangement, sides, side_values } = draft;
  const values = columns.find(({ index }) => draft.columns[index]?.role === 'side')?.values ?? [];
  const setArrangement = (next: Arrangement) =>
    onChange({
      ...draft,
      arrangement: next,
      sides: next === 'one' ? [sides[0], 'unknown'] : ['left', 'right'],
    });
  return (
    <div class="field-grid">
      <SelectField label="The file holds" value={arrangement} options={ARRANGEMENTS} onChange={setArrangement} />
      {arrangement === 'one' && side === null && (
        <SelectField
          label="It is the foot on the"
          value={sides[0]}
          options={SIDES}
          onChange={(one) => onChange({ ...draft, sides: [one, sides[1]] })}
        />
      )}
      {arrangement === 'rows' &&
        ([0, 1] as const).map((sensor) => (
          <SelectField
            key={sensor}
            label={`Rows of the ${sensor === 0 ? 'left' : 'right'} foot hold`}
            value={side_values[sensor]}
            options={['', ...values].map((value) => ({ value, label: value || 'choose ...' }))}
            onChange={(value) =>
              onChange({
                ...draft,
                side_values: sensor === 0 ? [value, side_values[1]] : [side_values[0], value],
              })
            }
          />
        ))}
    </div>
  );
}
