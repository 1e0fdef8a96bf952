import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import type { FileColumn } from '../../../shared/schemas/layout-preview.ts';
import type { Side } from '../../../shared/words.ts';
import { SelectField } from '../select-field.tsx';
import type { Arrangement, LayoutDraft } from './draft.ts';

const t = phrasesOf('files', filesWords);
const common = phrasesOf('common', commonWords);

interface SensorFieldsProps {
  draft: LayoutDraft;
  columns: FileColumn[];
  /** Said elsewhere, as by the slot a file was put in; null where it is to be said here. */
  side: Side | null;
  onChange: (draft: LayoutDraft) => void;
}

const arrangements = (): { value: Arrangement; label: string }[] => [
  { value: 'one', label: t('one_sensor') },
  { value: 'columns', label: t('left_and_right_side_by') },
  { value: 'rows', label: t('left_and_right_by_turns') },
];
const sidesNow = (): { value: Side; label: string }[] => [
  { value: 'unknown', label: common('not_said') },
  { value: 'left', label: common('left') },
  { value: 'right', label: common('right') },
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
      <SelectField label={t('the_file_holds')} value={arrangement} options={arrangements()} onChange={setArrangement} />
      {arrangement === 'one' && side === null && (
        <SelectField
          label={t('it_is_the_foot_on')}
          value={sides[0]}
          options={sidesNow()}
          onChange={(one) => onChange({ ...draft, sides: [one, sides[1]] })}
        />
      )}
      {arrangement === 'rows' &&
        ([0, 1] as const).map((sensor) => (
          <SelectField
            key={sensor}
            label={t(sensor === 0 ? 'rows_of_left_foot_hold' : 'rows_of_right_foot_hold')}
            value={side_values[sensor]}
            options={['', ...values].map((value) => ({ value, label: value || common('choose') }))}
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
