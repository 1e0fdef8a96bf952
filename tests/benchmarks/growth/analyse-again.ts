import { Jobs } from '../../../api/measuring/jobs/jobs.ts';
import { getReanalysis } from '../../../api/store/reanalyses.ts';
import { listRepetitions } from '../../../api/store/repetitions.ts';
import { storeManySprints } from '../many-sprints.ts';
import { measured } from './measured.ts';

const THREADS = 2;
/** Until the threads' code is compiled. */
const WARM_UP = 40;

/** @param recordings of two sensors in the store */
export async function measure(recordings: number) {
  const api = await storeManySprints(recordings);
  const ids = listRepetitions(api.store).map((line) => line.repetition_id);
  const jobs = new Jobs(api.store, THREADS);
  try {
    await jobs.reanalyses.ended(jobs.reanalyses.start(ids.slice(0, WARM_UP), undefined));
    const taken = await measured(async () => {
      const id = jobs.reanalyses.start(ids, undefined);
      await jobs.reanalyses.ended(id);
      const { done } = getReanalysis(api.store, id);
      if (done !== ids.length) throw new Error(`${done} of ${ids.length} done`);
    });
    return taken;
  } finally {
    await jobs.close();
    await api.close();
  }
}
