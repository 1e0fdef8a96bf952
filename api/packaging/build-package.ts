/** Builds what `npm pack` puts into the package beside plain files: the view and the program. */
import { buildServer } from './build-server.ts';
import { buildView } from './build-view.ts';

await buildView();
await buildServer();
