import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf } from './language.ts';

const common = phrasesOf('common', commonWords);

/** A page's title or name in the navigation, in the language of this device where it has one there. */
export function pageTitle(title: string): string {
  const key = `page_${title}`;
  return key in commonWords ? common(key as 'page_Field') : title;
}
