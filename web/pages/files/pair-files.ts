import type { Side } from '../../../shared/words.ts';

/** The files of one recording: one a foot, or one file that holds both. */
export interface FileSet {
  left: File | null;
  right: File | null;
  /** One file for both feet, or a file whose side its name does not tell. */
  both: File | null;
}

// Words for the sides as sensors and people name files; each must stand by itself in the name.
const SIDE_WORDS: Record<'left' | 'right', string[]> = {
  left: ['left', 'lt', 'l', 'links', 'gauche', 'izquierdo', 'izquierda', 'sinistra', 'sinistro'],
  right: ['right', 'rt', 'r', 'rechts', 'droit', 'droite', 'derecho', 'derecha', 'destra', 'destro'],
};

/** The side that a file's name tells, and the name without it. */
export function sideOfName(name: string): { side: Side; stem: string } {
  const words = name.toLowerCase().split(/([^a-z0-9]+|(?<=[a-z])(?=\d)|(?<=\d)(?=[a-z]))/);
  for (const side of ['left', 'right'] as const) {
    const at = words.findIndex((word) => SIDE_WORDS[side].includes(word));
    if (at >= 0) return { side, stem: words.filter((_, index) => index !== at).join('') };
  }
  return { side: 'unknown', stem: name.toLowerCase() };
}

/** Sorts files into recordings: a left and a right whose names are otherwise alike belong together. */
export function pairFiles(files: File[]): FileSet[] {
  const sets = new Map<string, FileSet>();
  for (const file of files) {
    const { side, stem } = sideOfName(file.name);
    let key = side === 'unknown' ? `alone ${file.name}` : stem;
    const slot = side === 'unknown' ? 'both' : side;
    while (sets.get(key)?.[slot]) key += ' again';
    const set = sets.get(key) ?? { left: null, right: null, both: null };
    set[slot] = file;
    sets.set(key, set);
  }
  const paired = [...sets.values()];
  // Two files that tell no side are most likely the two feet; a person sees and can swap them.
  if (paired.length === 2 && paired.every((set) => set.both)) {
    return [{ left: paired[0].both, right: paired[1].both, both: null }];
  }
  return paired;
}
