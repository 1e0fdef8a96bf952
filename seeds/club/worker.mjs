// Entry of a worker thread: the sources are TypeScript, so the loader comes first.
import { register } from 'tsx/esm/api';

register();
await import('./worker-thread.ts');
