import type { TextShape } from '../../../shared/schemas/layout.ts';
import type { LayoutPreview } from '../../../shared/schemas/layout-preview.ts';
import { SelectField } from '../select-field.tsx';
import { TextField } from '../text-field.tsx';

interface TextFieldsProps {
  preview: LayoutPreview;
  /** What was told so far. */
  text: Partial<TextShape>;
  onChange: (text: Partial<TextShape>) => void;
}

const DELIMITERS = [
  { value: ',', label: 'commas' },
  { value: ';', label: 'semicolons' },
  { value: '\t', label: 'tabs' },
  { value: ' ', label: 'blanks' },
  { value: '|', label: 'bars' },
];

/** How lines and cells are parted: delimiter, decimal mark, where the rows begin, what stands above them. */
export function TextFields({ preview, text, onChange }: TextFieldsProps) {
  const first = preview.lines.find(({ role }) => role === 'row')?.line ?? 1;
  const has = (role: 'names' | 'units') => preview.lines.some((line) => line.role === role);
  const names = has('units') ? 'both' : has('names') ? 'names' : 'none';
  return (
    <div class="field-grid">
      <SelectField
        label="Cells are parted by"
        value={preview.delimiter}
        options={[...(preview.delimiter ? [] : [{ value: '', label: 'choose ...' }]), ...DELIMITERS]}
        onChange={(delimiter) => delimiter && onChange({ delimiter })}
      />
      <SelectField
        label="Decimals are written with"
        value={preview.decimal_mark}
        options={[
          ...(preview.decimal_mark ? [] : [{ value: '', label: 'choose ...' }]),
          { value: '.', label: 'a point: 9.81' },
          { value: ',', label: 'a comma: 9,81' },
        ]}
        onChange={(mark) => mark && onChange({ decimal_mark: mark as ',' | '.' })}
      />
      <TextField
        label="Rows begin in line"
        type="number"
        value={String(text.rows_from_line ?? first)}
        onChange={(line) => Number(line) >= 1 && onChange({ rows_from_line: Math.round(Number(line)) })}
      />
      <SelectField
        label="Above the rows stand"
        value={names}
        options={[
          { value: 'names', label: 'names of the columns' },
          { value: 'both', label: 'names, then units' },
          { value: 'none', label: 'no names' },
        ]}
        onChange={(choice) => onChange({ header_row: choice !== 'none', units_row: choice === 'both' })}
      />
    </div>
  );
}
