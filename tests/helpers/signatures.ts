/** Exported functions of a source with what their comment says, read as text. */

export interface Signature {
  name: string;
  /** Parameters as written: name or pattern, and type. */
  parameters: { name: string; type: string }[];
  /** Type of what is returned; empty where it is not written. */
  returns: string;
  /** The comment right above; empty where there is none. */
  comment: string;
}

/** Index of the bracket that closes the one at `open`. */
function closing(text: string, open: number): number {
  let depth = 0;
  for (let i = open; i < text.length; i++) {
    if ('([{<'.includes(text[i])) depth++;
    else if (')]}'.includes(text[i]) || (text[i] === '>' && text[i - 1] !== '=')) depth--;
    if (depth === 0) return i;
  }
  return text.length;
}

/** Parts of a list at its commas, those within brackets left alone. */
function parts(list: string): string[] {
  const out: string[] = [];
  let from = 0;
  for (let i = 0; i < list.length; i++) {
    if ('([{<'.includes(list[i])) i = closing(list, i);
    else if (list[i] === ',') {
      out.push(list.slice(from, i));
      from = i + 1;
    }
  }
  return [...out, list.slice(from)].map((part) => part.replace(/\s+/g, ' ').trim()).filter((part) => part !== '');
}

function parameter(text: string): { name: string; type: string } {
  const end = /^[{[]/.test(text) ? closing(text, 0) + 1 : text.search(/[^\w.]|$/);
  const type = /^\??\s*:\s*(.*?)(?:\s=\s.*)?$/.exec(text.slice(end));
  return { name: text.slice(0, end), type: type?.[1] ?? '' };
}

export function signatures(source: string): Signature[] {
  return [...source.matchAll(/^export (?:async )?function\*? (\w+)/gm)].map((match) => {
    const open = source.indexOf('(', match.index);
    const close = closing(source, open);
    const above = source.slice(0, match.index).trimEnd();
    return {
      name: match[1],
      parameters: parts(source.slice(open + 1, close).replace(/\/\/.*/g, '')).map(parameter),
      returns: /^\s*:\s*((?:[^{;]|\{[^}]*\})*?)\s*\{\n/.exec(source.slice(close + 1))?.[1].replace(/\s+/g, ' ') ?? '',
      comment: above.endsWith('*/') ? above.slice(above.lastIndexOf('/**')) : '',
    };
  });
}
