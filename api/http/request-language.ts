import type { FastifyRequest } from 'fastify';
import { acceptedLanguages, chooseLanguage, LANGUAGE_COOKIE } from '../../shared/messages/languages.ts';
import type { Speech } from '../../shared/messages/say.ts';
import { JUDGEMENT_WORDS } from '../../shared/messages/judgement-languages.ts';
import type { JudgementWords } from '../../shared/messages/judgement-words.ts';
import { speechOf } from '../../shared/messages/speeches.ts';

/** The speech to answer a request in: what was chosen in the view's settings, else what the browser prefers, else English. */
export function speechOfRequest(request: Pick<FastifyRequest, 'headers'>): Speech {
  const { cookie, 'accept-language': accepted } = request.headers;
  const chosen = new RegExp(`(?:^|;\\s*)${LANGUAGE_COOKIE}=([a-z-]+)`, 'i').exec(cookie ?? '')?.[1];
  return speechOf(chooseLanguage([...(chosen ? [chosen] : []), ...acceptedLanguages(accepted)]));
}

/** What a coach is told, in the language of the request. */
export function wordsOfRequest(request: Pick<FastifyRequest, 'headers'>): JudgementWords {
  return JUDGEMENT_WORDS[speechOfRequest(request).language];
}
