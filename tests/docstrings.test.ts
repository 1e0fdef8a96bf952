/**
 * Every function that the signal processing exports says what goes in and what comes out: numbers, text, columns and patterns of them
 * have no meaning, shape or unit by their type, so each is named by `@param` and `@returns`. A type of our own says it where it is defined.
 */
import { expect, test } from 'vitest';
import { sources, textOf } from './helpers/house.ts';
import { type Signature, signatures } from './helpers/signatures.ts';

/** Types that say nothing of what they hold. */
const BARE = /\b(?:number|string|boolean|ArrayLike|\w+Array|AxisColumns|Vector3)\b|=>|^\{/;

function unsaid({ name, parameters, returns, comment }: Signature): string[] {
  if (comment === '') return [`${name} has no comment`];
  const said = [...comment.matchAll(/@param (\w+)/g)].map((match) => match[1]);
  // A pattern may be named by what it takes apart, or once by a word of its own.
  const known = parameters.flatMap((each) => each.name.match(/\w+/g) ?? []);
  const patterns = parameters.filter((each) => !/^\w/.test(each.name));
  return [
    ...parameters
      .filter((each) => /^\w/.test(each.name) && BARE.test(each.type) && !said.includes(each.name))
      .map((each) => `${name}: @param ${each.name}`),
    ...said
      .filter((each) => !known.includes(each))
      .slice(patterns.length)
      .map((each) => `${name} has no parameter ${each}`),
    ...((BARE.test(returns) || /\bnull\b/.test(returns)) && !comment.includes('@returns') ? [`${name}: @returns`] : []),
  ];
}

test('every exported function of dsp says what bare numbers go in and come out', () => {
  const found = sources('dsp').flatMap((file) => signatures(textOf(file)).map((each) => ({ file, each })));
  expect(found.length).toBeGreaterThan(200);
  expect(found.flatMap(({ file, each }) => unsaid(each).map((what) => `${file}: ${what}`))).toEqual([]);
});

test('a function that says too little, or what is not there, would be found', () => {
  const source = `/**
 * Twice.
 * @param many one a sample
 * @param gone m
 */
export function twice(
  many: Float64Array,
  by: number, // how often
  ask: (index: number) => Foo<Bar, 3>,
  foo?: Foo,
): { a: number } | null {
  return null;
}

export function bare(): void {
}
`;
  expect(signatures(source).flatMap(unsaid)).toEqual([
    'twice: @param by',
    'twice: @param ask',
    'twice has no parameter gone',
    'twice: @returns',
    'bare has no comment',
  ]);
});
