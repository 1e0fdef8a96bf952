import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Plugin } from 'vite';

export const NOTICES_FILE = 'third-party-notices.md';

interface Manifest {
  name?: string;
  version?: string;
  author?: string | { name?: string };
  license?: string | { type?: string };
  licenses?: { type?: string }[];
}

/** Writes the licence of every package that went into a build beside it, as their licences ask for. */
export function thirdPartyNotices(): Plugin {
  return {
    name: 'third-party-notices',
    generateBundle(_, bundle) {
      const modules = Object.values(bundle).flatMap((file) => (file.type === 'chunk' ? file.moduleIds : []));
      const folders = new Set(modules.flatMap((id) => packageFolder(id.replace(/^\0/, '').split('?', 1)[0]) ?? []));
      const notices = [...new Set([...folders].map(noticeOf))].sort();
      const source = [
        '# Third-party notices',
        'What stands beside this file contains parts of these packages.',
        ...notices,
      ];
      this.emitFile({ type: 'asset', fileName: NOTICES_FILE, source: `${source.join('\n\n')}\n` });
    },
  };
}

/** Folder of the package that a module belongs to: the nearest one below node_modules whose package.json has a name. */
function packageFolder(module: string): string | null {
  if (!module.includes('node_modules')) return null;
  for (let folder = dirname(module); folder.includes('node_modules'); folder = dirname(folder)) {
    if (existsSync(join(folder, 'package.json')) && manifestOf(folder).version !== undefined) return folder;
  }
  return null;
}

function manifestOf(folder: string): Manifest {
  return JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Manifest;
}

function noticeOf(folder: string): string {
  const { name, version, author, license, licenses } = manifestOf(folder);
  const kind = typeof license === 'string' ? license : (license?.type ?? licenses?.map(({ type }) => type).join(', '));
  const file = readdirSync(folder).find((entry) => /^(licen[cs]e|copying)/i.test(entry));
  const by = typeof author === 'string' ? author : author?.name;
  // Without a licence file the package's own manifest is all there is to pass on.
  const text = file
    ? readFileSync(join(folder, file), 'utf8').trim()
    : `No licence file; by ${by ?? 'unnamed authors'}.`;
  return `## ${name} - ${version} (${kind ?? 'licence not named'})\n\n${text}`;
}
