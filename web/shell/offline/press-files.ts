import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Plugin } from 'vite';

/** What shrinks; typefaces and pictures are pressed already. */
const SHRINKS = /\.(js|css|html|svg|webmanifest)$/;
/** Smaller files fit into one packet as they are. */
const LEAST_BYTES = 1200;

/** Puts a pressed copy beside each of the view's files, once at the build rather than at every request: a field's Wi-Fi is slow. */
export function pressFiles(): Plugin {
  return {
    name: 'press-files',
    apply: 'build',
    writeBundle({ dir }) {
      for (const name of readdirSync(dir!, { recursive: true, encoding: 'utf8' })) {
        if (!SHRINKS.test(name)) continue;
        const bytes = readFileSync(`${dir}/${name}`);
        if (bytes.length >= LEAST_BYTES) writeFileSync(`${dir}/${name}.gz`, gzipSync(bytes, { level: 9 }));
      }
    },
  };
}
