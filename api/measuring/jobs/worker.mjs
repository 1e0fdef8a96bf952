// Entry of a worker thread.
import { loadSource } from '../../load-source.mjs';

await loadSource('api/measuring/jobs/worker-thread.ts');
