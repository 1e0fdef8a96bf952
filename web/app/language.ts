import { signal } from '@preact/signals';
import { optionFaults } from '../../shared/messages/en/faults/options.ts';
import { viewFaults } from '../../shared/messages/en/faults/view.ts';
import { createSpeech } from '../../shared/messages/speech.ts';
import type { Speech } from '../../shared/messages/say.ts';

/** How this device's language writes numbers, lists and days, and tells the faults that the view makes itself. */
export const speech = signal<Speech>(createSpeech('en', { ...optionFaults, ...viewFaults }));
