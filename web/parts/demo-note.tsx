import type { DemoState } from '../../shared/schemas/demo.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import { paths } from '../api.ts';
import { phrasesOf } from '../app/language.ts';
import { useRefresh } from '../app/use-refresh.ts';
import { useResource } from '../app/use-resource.ts';

const common = phrasesOf('common', commonWords);

/** While the demo is loaded its progress is asked for this often. */
const ASK_MS = 2000;

/** Says that the club is invented, and how far it is loaded. Silent without the demo. */
export function DemoNote({ onProgress }: { onProgress?: () => void }) {
  const demo = useResource<DemoState>(paths.demo);
  const loading = demo.value?.loading ?? null;
  useRefresh(
    async () => {
      await demo.reload();
      onProgress?.();
    },
    loading === null ? null : ASK_MS,
  );
  if (!demo.value?.invented) return null;
  return (
    <aside class="demo-note" aria-label={common('demo')}>
      <p>
        <strong>{common('demo')}</strong> {common('demo_invented')}{' '}
        {loading && common('demo_loading', { done: loading.done, total: loading.total })}
      </p>
      {loading && (
        <progress max={loading.total} value={loading.done} aria-label={common('demo_progress')}>
          {loading.done}
        </progress>
      )}
    </aside>
  );
}
