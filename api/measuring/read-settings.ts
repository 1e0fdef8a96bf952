import { type AnalysisSettings, DEFAULT_SETTINGS } from '../../dsp/settings/settings.ts';
import { FaultError, fault } from '../../shared/fault.ts';

/**
 * Puts a part of the settings (parsed JSON) over the defaults.
 * @throws FaultError SETTINGS_UNREADABLE for a name that does not exist or a value of another kind
 */
export function mergeSettings(part: unknown, source: string): AnalysisSettings {
  return merge(DEFAULT_SETTINGS, part, '', source) as AnalysisSettings;
}

function merge(defaults: unknown, part: unknown, path: string, source: string): unknown {
  if (part === undefined) return defaults;
  if (isRecord(defaults)) {
    if (!isRecord(part)) throw unreadable(path, part, 'a group of settings', source);
    for (const name of Object.keys(part)) {
      if (!Object.hasOwn(defaults, name))
        throw unreadable(join(path, name), part[name], `one of ${Object.keys(defaults).join(', ')}`, source);
    }
    return Object.fromEntries(
      Object.entries(defaults).map(([name, value]) => [name, merge(value, part[name], join(path, name), source)]),
    );
  }
  if (typeof part !== typeof defaults || (typeof part === 'number' && !Number.isFinite(part))) {
    throw unreadable(path, part, `a ${typeof defaults}`, source);
  }
  return part;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return value !== null && typeof value === 'object' && !Array.isArray(value);
}

function join(path: string, name: string): string {
  return path ? `${path}.${name}` : name;
}

function unreadable(path: string, found: unknown, expected: string, source: string): FaultError {
  return new FaultError(
    fault(
      'SETTINGS_UNREADABLE',
      { file: source, path, found: JSON.stringify(found) ?? 'nothing', expected },
      { file: source, field: path },
    ),
  );
}
