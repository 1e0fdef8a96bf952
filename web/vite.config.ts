import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';

/** Asks for the typeface together with the script, so that words do not change their shape while they are read. */
function preloadTypeface(): Plugin {
  return {
    name: 'preload-typeface',
    transformIndexHtml: {
      order: 'post',
      handler: (_, { bundle }) =>
        Object.keys(bundle ?? {})
          .filter((file) => /next-latin-wght-normal.*\.woff2$/.test(file))
          .map((file) => ({
            tag: 'link',
            attrs: { rel: 'preload', as: 'font', type: 'font/woff2', href: `/${file}`, crossorigin: '' },
            injectTo: 'head' as const,
          })),
    },
  };
}

export default defineConfig({
  plugins: [preloadTypeface()],
  root: fileURLToPath(new URL('.', import.meta.url)),
  build: { outDir: 'dist', emptyOutDir: true, target: 'es2022' },
  server: { proxy: { '/api': 'http://127.0.0.1:7100' } },
});
