import type { Fault } from '../../shared/fault.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import { paths } from '../api.ts';
import { phrasesOf, speech } from '../app/language.ts';
import { useResource } from '../app/use-resource.ts';

const common = phrasesOf('common', commonWords);

/** On every page while the server cannot write its database: why, and what to do. */
export function ReadOnlyNote() {
  const health = useResource<{ read_only: Fault | null }>(paths.health);
  const why = health.value?.read_only;
  if (!why) return null;
  const { message, hint } = speech.value.tell(why);
  return (
    <aside class="fault" aria-label={common('read_only')}>
      <p>
        <strong>{common('read_only')}</strong> {message}
      </p>
      <p>
        <strong>{common('what_to_do')}</strong> {hint}
      </p>
    </aside>
  );
}
