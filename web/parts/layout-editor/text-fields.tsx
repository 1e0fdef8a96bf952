import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import type { TextShape } from '../../../shared/schemas/layout.ts';
import type { LayoutPreview } from '../../../shared/schemas/layout-preview.ts';
import { SelectField } from '../select-field.tsx';
import { TextField } from '../text-field.tsx';

const t = phrasesOf('files', filesWords);
const common = phrasesOf('common', commonWords);

interface TextFieldsProps {
  preview: LayoutPreview;
  /** What was told so far. */
  text: Partial<TextShape>;
  onChange: (text: Partial<TextShape>) => void;
}

const delimiters = () => [
  { value: ',', label: t('commas') },
  { value: ';', label: t('semicolons') },
  { value: '\t', label: t('tabs') },
  { value: ' ', label: t('blanks') },
  { value: '|', label: t('bars') },
];

/** How lines and cells are parted: delimiter, decimal mark, where the rows begin, what stands above them. */
export function TextFields({ preview, text, onChange }: TextFieldsProps) {
  const first = preview.lines.find(({ role }) => role === 'row')?.line ?? 1;
  const has = (role: 'names' | 'units') => preview.lines.some((line) => line.role === role);
  const names = has('units') ? 'both' : has('names') ? 'names' : 'none';
  return (
    <div class="field-grid">
      <SelectField
        label={t('cells_are_parted_by')}
        value={preview.delimiter}
        options={[...(preview.delimiter ? [] : [{ value: '', label: common('choose') }]), ...delimiters()]}
        onChange={(delimiter) => delimiter && onChange({ delimiter })}
      />
      <SelectField
        label={t('decimals_are_written_with')}
        value={preview.decimal_mark}
        options={[
          ...(preview.decimal_mark ? [] : [{ value: '', label: common('choose') }]),
          { value: '.', label: t('a_point_9_81') },
          { value: ',', label: t('a_comma_9_81') },
        ]}
        onChange={(mark) => mark && onChange({ decimal_mark: mark as ',' | '.' })}
      />
      <TextField
        label={t('rows_begin_in_line')}
        type="number"
        value={String(text.rows_from_line ?? first)}
        onChange={(line) => Number(line) >= 1 && onChange({ rows_from_line: Math.round(Number(line)) })}
      />
      <SelectField
        label={t('above_the_rows_stand')}
        value={names}
        options={[
          { value: 'names', label: t('names_of_the_columns') },
          { value: 'both', label: t('names_then_units') },
          { value: 'none', label: t('no_names') },
        ]}
        onChange={(choice) => onChange({ header_row: choice !== 'none', units_row: choice === 'both' })}
      />
    </div>
  );
}
