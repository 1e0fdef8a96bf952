import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';
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

export default defineConfig({
  plugins: [preloadTypeface(), shellPlugin()],
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
