import { phrasesOf, speech } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import type { PreviewSensor, ReadingCheck } from '../../../shared/schemas/layout-preview.ts';
import type { Fitness } from '../../../shared/words.ts';
import { FitnessMark } from '../fitness-mark.tsx';
import { SignalPicture } from './signal-picture.tsx';

const t = phrasesOf('files', filesWords);

const MARKS: Record<ReadingCheck['verdict'], Fitness> = {
  plausible: 'good',
  doubtful: 'usable with wider uncertainty',
  impossible: 'not measurable',
};

interface ReadingChecksProps {
  sensor: PreviewSensor;
  /** True where the file holds several sensors. */
  named: boolean;
  /** Turns the sign of rotation about these axes. */
  onTurn?: (axes: ReadingCheck['turn']) => void;
}

/** What comes out when a file is read so: the figures by which a wrong reading shows, and the signal. */
export function ReadingChecks({ sensor, named, onTurn }: ReadingChecksProps) {
  return (
    <div>
      {named && <h3>{t(`foot_${sensor.side}`)}</h3>}
      <table class="verdicts">
        <caption class="visually-hidden">{t('is_it_read_rightly')}</caption>
        <tbody>
          {sensor.checks.map((check) => (
            <tr key={check.about}>
              <th scope="row">{t(`check_${check.about}`)}</th>
              <td>
                <FitnessMark fitness={MARKS[check.verdict]} /> <strong>{speech.value.because(check.found)}</strong>{' '}
                {check.verdict !== 'plausible' && `${t(`is_${check.verdict}`)}: `}
                <span class="quiet small">{speech.value.because(check.why)}</span>
                {check.turn.length > 0 && onTurn && (
                  <div>
                    <button type="button" onClick={() => onTurn(check.turn)}>
                      {t('turn_the_sign_of_rotation', { turn: check.turn.join(', ') })}
                    </button>
                  </div>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <SignalPicture sensor={sensor} />
    </div>
  );
}

/** The worst of all checks, in one word. */
export function worstOf(sensors: PreviewSensor[]): ReadingCheck['verdict'] {
  const verdicts = sensors.flatMap(({ checks }) => checks.map(({ verdict }) => verdict));
  return verdicts.includes('impossible') ? 'impossible' : verdicts.includes('doubtful') ? 'doubtful' : 'plausible';
}

/** The same mark for a verdict of a whole file. */
export function VerdictMark({ verdict }: { verdict: ReadingCheck['verdict'] }) {
  return <FitnessMark fitness={MARKS[verdict]} />;
}
