/** Words that a page would show and that no catalogue holds, found in its source. */
import { parseSync } from 'vite';

/** Attributes and properties that hold words for people. */
const FOR_PEOPLE = new Set(
  'label title aria-label placeholder help legend caption description text alt data-label hint why words message heading'.split(
    ' ',
  ),
);
/** Elements whose text is no word: what is typed or shown as it is. */
const AS_IS = new Set(['code', 'kbd', 'option']);
/** Stands for a value in a template. */
const HOLE = '…';
const IS_WORD = /\p{L}{2}/u;
/** A sentence or a name: words with a space between them, or a capital that begins one. */
const READS_AS_WORDS = /\p{Ll}{2}.*\s.*\p{L}{2}|^\p{Lu}\p{Ll}{2,}/u;

interface Node {
  type: string;
  start: number;
  end: number;
  [part: string]: unknown;
}

const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null && 'type' in value;

/**
 * @param file name of the source, with its ending
 * @param code its text
 * @returns `line: words` each
 */
export function wordsInView(file: string, code: string): string[] {
  const { program } = parseSync(file, code);
  const found: string[] = [];
  const add = (node: Node, text: string) =>
    found.push(`${code.slice(0, node.start).split('\n').length}: ${text.trim().replace(/\s+/g, ' ')}`);

  function visit(node: Node, above: readonly Node[]): void {
    const parent = above.at(-1);
    if (/^(TS(?!As|NonNull|Satisfies)|ImportDeclaration|ExportAllDeclaration)/.test(node.type)) return;
    if (node.type === 'JSXText') {
      const text = String(node.value);
      if (IS_WORD.test(text) && !AS_IS.has(tagOf(parent))) add(node, text);
      return;
    }
    if (node.type === 'JSXAttribute') {
      const name = (node.name as Node).name;
      if (
        typeof name === 'string' &&
        /^(class|d|style|type|id|role|key|href|transform|viewBox|accept|rel|target|autoComplete|inputMode|points)$/.test(
          name,
        )
      )
        return;
    }
    if (node.type === 'Literal' || node.type === 'TemplateLiteral') {
      const text = textOf(node);
      if (IS_WORD.test(text) && isForPeople(node, text, above)) add(node, text);
    }
    for (const part of Object.values(node)) {
      for (const child of Array.isArray(part) ? part : [part]) {
        if (isNode(child)) visit(child, [...above, node]);
      }
    }
  }
  visit(program as unknown as Node, []);
  return found;
}

function textOf(node: Node): string {
  if (node.type === 'Literal') return typeof node.value === 'string' ? node.value : '';
  return (node.quasis as { value: { cooked: string } }[]).map(({ value }) => value.cooked).join(HOLE);
}

function tagOf(element: Node | undefined): string {
  const opening = element?.openingElement as Node | undefined;
  const name = (opening?.name as Node | undefined)?.name;
  return typeof name === 'string' ? name : '';
}

function isForPeople(node: Node, text: string, above: readonly Node[]): boolean {
  const parent = above.at(-1)!;
  // Addresses, keys of phrases, arguments of functions that take words of the program, comparisons.
  if (/^(?:#|\/|\.\/|\?|&|M…)/.test(text)) return false;
  if (parent.type === 'BinaryExpression' && /[=<>]=/.test(String(parent.operator))) return false;
  if (parent.type === 'SwitchCase' || parent.type === 'ThrowStatement' || parent.type === 'NewExpression') return false;
  if (parent.type === 'MemberExpression' || (parent.type === 'Property' && parent.key === node)) return false;
  const attribute = above.find(({ type }) => type === 'JSXAttribute');
  const named =
    parent.type === 'Property'
      ? String((parent.key as Node).name ?? (parent.key as Node).value)
      : String((attribute?.name as Node | undefined)?.name ?? '');
  if (FOR_PEOPLE.has(named) && !insideCall(above)) return !isKey(text);
  return READS_AS_WORDS.test(text) && !insideCall(above);
}

/** A key of a phrase, such as `by_step`, is told by what it names. */
const isKey = (text: string): boolean => /^[a-z]+_[a-z_]+$/.test(text);

/** Arguments of a call are the callee's business, except where it shows them: `offerUndo('...')`. */
function insideCall(above: readonly Node[]): boolean {
  const call = above.at(-1);
  if (call?.type !== 'CallExpression') return false;
  const callee = call.callee as Node;
  const name = String(callee.name ?? (callee.property as Node | undefined)?.name ?? '');
  return !/^(offerUndo|setMissing|setProblem|say|push)$/.test(name);
}
