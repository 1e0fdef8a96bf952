// Entry of a worker thread.
import { loadSource } from '../../api/load-source.mjs';

await loadSource('seeds/club/worker-thread.ts');
