// Entry of a worker thread: the sources are TypeScript, so the loader comes first. The loader for `require` works within this
// thread; the one for `import` would start a second thread beside it, for 20 MB more.
import { createRequire } from 'node:module';
import { register } from 'tsx/cjs/api';

register();
createRequire(import.meta.url)('./worker-thread.ts');
