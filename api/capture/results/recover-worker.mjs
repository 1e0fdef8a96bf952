// Entry of a worker thread.
import { loadSource } from '../../load-source.mjs';

await loadSource('api/capture/results/recover-thread.ts');
