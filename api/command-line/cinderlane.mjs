#!/usr/bin/env -S MALLOC_ARENA_MAX=2 MALLOC_MMAP_THRESHOLD_=131072 MALLOC_TRIM_THRESHOLD_=131072 node --max-semi-space-size=2
// The sources are TypeScript and run as they are: tsx translates each file as it is loaded. Its loader for `require` works within
// this thread; the one for `import` would need a second one, for 30 MB more. The young generation is kept small, because by
// default its garbage alone comes to some 90 MB over the server's threads.
import { createRequire } from 'node:module';
import { register } from 'tsx/cjs/api';

register();
const load = createRequire(import.meta.url);
process.exitCode = await load('./main.ts').main(process.argv.slice(2), load);
