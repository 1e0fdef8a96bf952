interface SelectFieldProps<T extends string> {
  label: string;
  value: T;
  options: readonly { value: T; label: string }[];
  onChange: (value: T) => void;
  /** Keeps the label for screen readers, where the place says enough. */
  quiet?: boolean;
}

/** A labelled choice among many. */
export function SelectField<T extends string>({ label, value, options, onChange, quiet = false }: SelectFieldProps<T>) {
  return (
    <label class="field">
      <span class={quiet ? 'visually-hidden' : undefined}>{label}</span>
      <select value={value} onChange={(event) => onChange(event.currentTarget.value as T)}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </label>
  );
}
