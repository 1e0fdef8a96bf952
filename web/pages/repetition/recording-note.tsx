import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { phrasesOf } from '../../app/language.ts';
import type { SensorQuality } from '../../../shared/analysis.ts';
import { FindingGlyph } from './finding-picture.tsx';
import { findingsOf } from './quality-findings.ts';
import type { Finding } from './finding.ts';

const t = phrasesOf('repetition', repetitionWords);

/**
 * Right under the result: what was wrong with the recording it rests on, and what to do before the next one; nothing where it was
 * clean.
 */
export function RecordingNote({ quality }: { quality: SensorQuality[] }) {
  const notes = notesOf(quality);
  if (notes.length === 0) return null;
  return (
    <aside class="recording-note" aria-label={t('about_recording')}>
      <ul class="findings">
        {notes.map(({ whose, finding }) => (
          <li key={`${whose}${finding.short}`}>
            <FindingGlyph picture={finding.picture} />
            <div>
              {whose}: {finding.short}. <strong>{finding.todo}</strong>
            </div>
          </li>
        ))}
      </ul>
    </aside>
  );
}

/** Findings of all sensors; one that both have is said once. */
export function notesOf(quality: SensorQuality[]): { whose: string; finding: Finding }[] {
  const notes = new Map<string, { sides: string[]; finding: Finding }>();
  for (const sensor of quality) {
    for (const finding of findingsOf(sensor)) {
      if (finding.todo === '' || isHarmless(finding, sensor)) continue;
      const note = notes.get(finding.short) ?? { sides: [], finding };
      note.sides.push(sensor.side);
      notes.set(finding.short, note);
    }
  }
  return [...notes.values()].map(({ sides, finding }) => ({ whose: wordsFor(sides), finding }));
}

/** Many a shoe sensor ends at 16 g, which a landing passes: told under the result only where it costs the contact time. */
function isHarmless({ everyday }: Finding, { verdicts }: SensorQuality): boolean {
  if (!everyday) return false;
  return verdicts.some(({ quantity, fitness }) => quantity === 'contact_time_ms' && fitness === 'good');
}

function wordsFor(sides: string[]): string {
  if (sides.length > 1) return t('both_sensors');
  return sides[0] === 'unknown' ? t('sensor') : t(sides[0] === 'left' ? 'left_sensor' : 'right_sensor');
}
