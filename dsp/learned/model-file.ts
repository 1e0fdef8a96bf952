import type { Mounting } from '../../shared/words.ts';
import type { ContactModel, Interval } from './contact-model.ts';
import type { Trees } from './trees.ts';

/** A model as it lies in a file: columns of numbers as base64 of their little-endian bytes. */
export interface ModelFile {
  format: 'contact-model/2';
  /** Where what it learned from comes from, and under which licence. */
  notice: string;
  mounting: Mounting;
  channels: ContactModel['channels'];
  scales: number[];
  kernel: {
    numbers: number;
    centre: string;
    scale: string;
    axes: string;
    weight: string;
    points: string;
    dual: string;
    gamma: number;
    offset: number;
    usual: number;
  };
  forest: TreesText;
  boosted: { start: ContactModel['boosted']['start']; trees: TreesText };
  intervals: Record<'touchdown' | 'toe_off' | 'contact_time', Interval>;
  first_later_s: Record<'touchdown' | 'toe_off', number>;
  first_stage: Record<'touchdown' | 'toe_off' | 'contact_time', number>;
}

type TreesText = Record<keyof Trees, string>;

type Columns = Uint8Array | Int16Array | Uint16Array | Uint32Array | Float32Array;

/**
 * A model as it is stored: its columns as text.
 * @param notice licences of what it was taught by; stored with it
 */
export function encodeModel(model: ContactModel, notice: string): ModelFile {
  const { mounting, channels, scales, kernel, forest, boosted, intervals, first_later_s, first_stage } = model;
  return {
    format: 'contact-model/2',
    notice,
    mounting,
    channels,
    scales: [...scales],
    kernel: {
      ...kernel,
      centre: toText(kernel.centre),
      scale: toText(kernel.scale),
      axes: toText(kernel.axes),
      weight: toText(kernel.weight),
      points: toText(kernel.points),
      dual: toText(kernel.dual),
    },
    forest: treesText(forest),
    boosted: { start: boosted.start, trees: treesText(boosted.trees) },
    intervals,
    first_later_s,
    first_stage,
  };
}

/**
 * A stored model, ready to be asked.
 */
export function decodeModel(file: ModelFile): ContactModel {
  const { mounting, channels, scales, kernel, forest, boosted, intervals, first_later_s, first_stage } = file;
  return {
    mounting,
    channels,
    scales,
    kernel: {
      ...kernel,
      centre: new Float32Array(toBytes(kernel.centre)),
      scale: new Float32Array(toBytes(kernel.scale)),
      axes: new Int16Array(toBytes(kernel.axes)),
      weight: new Float32Array(toBytes(kernel.weight)),
      points: new Int16Array(toBytes(kernel.points)),
      dual: new Float32Array(toBytes(kernel.dual)),
    },
    forest: treesOf(forest),
    boosted: { start: boosted.start, trees: treesOf(boosted.trees) },
    intervals,
    first_later_s,
    first_stage,
  };
}

function treesText({ roots, feature, threshold, right }: Trees): TreesText {
  return { roots: toText(roots), feature: toText(feature), threshold: toText(threshold), right: toText(right) };
}

function treesOf({ roots, feature, threshold, right }: TreesText): Trees {
  return {
    roots: new Uint32Array(toBytes(roots)),
    feature: new Uint16Array(toBytes(feature)),
    threshold: new Int16Array(toBytes(threshold)),
    right: new Int16Array(toBytes(right)),
  };
}

function toText(columns: Columns): string {
  const bytes = new Uint8Array(columns.buffer, columns.byteOffset, columns.byteLength);
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text);
}

function toBytes(text: string): ArrayBuffer {
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = binary.charCodeAt(i);
  return bytes.buffer;
}
