import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf } from './language.ts';

const common = phrasesOf('common', commonWords);

type TitleOf<Key> = Key extends `page_${infer Title}` ? Title : never;

/** Titles that the catalogue has; a route with another one does not compile. */
export type PageTitle = TitleOf<keyof typeof commonWords>;

/** A page's title or name in the navigation, in the language of this device. */
export function pageTitle(title: PageTitle): string {
  return common(`page_${title}`);
}
