import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';
import { pressFiles } from './shell/offline/press-files.ts';
import { shellPlugin, WORKER_FILE, WORKER_SOURCE } from './shell/offline/shell-plugin.ts';

/** Asks for the typeface together with the script, so that words do not change their shape while they are read. */
function preloadTypeface(): Plugin {
  return {
    name: 'preload-typeface',
    transformIndexHtml: {
      order: 'post',
      handler: (_, { bundle }) =>
        Object.keys(bundle ?? {})
          .filter((file) => /next-latin-wght-normal[^/]{0,40}\.woff2$/.test(file))
          .map((file) => ({
            tag: 'link',
            attrs: { rel: 'preload', as: 'font', type: 'font/woff2', href: `/${file}`, crossorigin: '' },
            injectTo: 'head' as const,
          })),
    },
  };
}

/** The page of an archive's server: the same view, told by its page what it serves. */
function archivePage(): Plugin {
  return {
    name: 'archive-page',
    apply: 'build',
    generateBundle: {
      order: 'post',
      handler(_, bundle) {
        const page = bundle['index.html'];
        if (page?.type !== 'asset') throw new Error('the build made no index.html');
        const source = String(page.source).replace('<html ', '<html data-serves="archive" ');
        this.emitFile({ type: 'asset', fileName: 'archive.html', source });
      },
    },
  };
}

export default defineConfig({
  plugins: [preloadTypeface(), shellPlugin(), archivePage(), pressFiles()],
  root: fileURLToPath(new URL('.', import.meta.url)),
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    target: 'es2022',
    rollupOptions: {
      input: { view: fileURLToPath(new URL('index.html', import.meta.url)), 'service-worker': WORKER_SOURCE },
      output: {
        entryFileNames: ({ name }) => (name === 'service-worker' ? WORKER_FILE : 'assets/[name]-[hash].js'),
      },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:7100' } },
});
