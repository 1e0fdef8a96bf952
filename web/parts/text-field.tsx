interface TextFieldProps {
  label: string;
  value: string;
  onChange: (value: string) => void;
  type?: 'text' | 'number' | 'date';
  /** Printed under the field. */
  help?: string;
  required?: boolean;
  placeholder?: string;
  /** Smallest step of a number. */
  step?: string;
  list?: string;
}

/** A labelled line of text, number or date. */
export function TextField({
  label,
  value,
  onChange,
  type = 'text',
  help,
  required,
  placeholder,
  step,
  list,
}: TextFieldProps) {
  return (
    <label class="field">
      <span>{label}</span>
      <input
        type={type}
        value={value}
        required={required}
        placeholder={placeholder}
        step={step}
        list={list}
        inputMode={type === 'number' ? 'decimal' : undefined}
        onInput={(event) => onChange(event.currentTarget.value)}
      />
      {help && <span class="small quiet">{help}</span>}
    </label>
  );
}
