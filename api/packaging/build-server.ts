/**
 * Builds the program into `api/dist` for the package: one file a command and a thread, what they share in files beside these.
 * Run by `npm pack` (script `prepack`); a checkout runs its sources as they are.
 */
import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Plugin } from 'vite';
import { COMMAND_NAMES, LOADED_BY_COMMANDS } from '../command-line/main.ts';
import { builtName } from '../load-source.mjs';
import { thirdPartyNotices } from './third-party-notices.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const THREADS = [
  'api/measuring/jobs/worker-thread.ts',
  'api/capture/results/find-thread.ts',
  'api/capture/results/join-thread.ts',
  'seeds/club/worker-thread.ts',
];

/**
 * What is loaded from outside has a binary or files of its own beside its code; everything else goes into the build. usocket (a
 * binary), abstract-socket and x11, which the libraries of the message bus can do without, are left out: a plain socket is all that is used.
 */
export function outsidePackages(): string[] {
  const { dependencies, optionalDependencies } = JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8')) as Record<
    'dependencies' | 'optionalDependencies',
    Record<string, string>
  >;
  return [...Object.keys(dependencies), ...Object.keys(optionalDependencies), 'usocket', 'x11', 'abstract-socket'];
}

/**
 * Every source keeps its own address. Migrations, the view and the threads' entries lie in the package where they lie in the
 * checkout, so what is found beside a source is found from its built form as well.
 */
function ownAddresses(): Plugin {
  return {
    name: 'own-addresses',
    transform: {
      order: 'pre',
      handler(code, id) {
        const path = relative(ROOT, id.split('?', 1)[0]);
        if (!path.endsWith('.ts') || path.includes('node_modules') || !code.includes('import.meta.url')) return null;
        return code.replaceAll('import.meta.url', `new URL('../../${path}', import.meta.url).href`);
      },
    },
  };
}

/** @param outDir where to, from the top of the checkout */
export async function buildServer(outDir = 'api/dist'): Promise<void> {
  const sources = ['main', ...COMMAND_NAMES, ...LOADED_BY_COMMANDS]
    .map((name) => `api/command-line/${name}.ts`)
    .concat(THREADS);
  const input = Object.fromEntries(sources.map((path) => [builtName(path).replace(/\.js$/, ''), `${ROOT}${path}`]));
  const external = outsidePackages();
  await build({
    configFile: false,
    root: ROOT,
    logLevel: 'warn',
    publicDir: false,
    plugins: [ownAddresses(), thirdPartyNotices()],
    ssr: { noExternal: true, external, target: 'node' },
    build: {
      ssr: true,
      outDir,
      emptyOutDir: true,
      target: 'node20',
      minify: true,
      rollupOptions: {
        input,
        external: external.map((name) => new RegExp(`^${name}($|/)`)),
        output: { entryFileNames: '[name].js', chunkFileNames: 'part-[hash].js' },
      },
    },
  });
}
