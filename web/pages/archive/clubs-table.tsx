import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { ArchiveClub } from '../../../shared/schemas/archive.ts';
import { phrasesOf } from '../../app/language.ts';
import { countText, sizeText, when } from './archive-api.ts';

const t = phrasesOf('archive', archiveWords);

const COUNTS = ['people', 'repetitions', 'contacts', 'recordings'] as const;

/** Every club with when it sent and how much: a table on a wide screen, a card a club on a phone. */
export function ClubsTable({ clubs }: { clubs: ArchiveClub[] }) {
  if (clubs.length === 0)
    return (
      <p>
        {t('no_clubs')} <code>cinderlane archive admit --as club --name NAME</code>
      </p>
    );
  return (
    <table class="numbers clubs">
      <thead>
        <tr>
          <th class="word">{t('club')}</th>
          <th class="word">{t('last_sent')}</th>
          {COUNTS.map((name) => (
            <th key={name}>{t(name)}</th>
          ))}
          <th>{t('stored')}</th>
          <th class="word">{t('notes')}</th>
        </tr>
      </thead>
      <tbody>
        {clubs.map((club) => (
          <tr key={club.name}>
            <th scope="row" class="word">
              {club.name}
            </th>
            <td class="word" data-label={t('last_sent')}>
              {club.last_push_utc === null ? t('never') : when(club.last_push_utc)}
            </td>
            {COUNTS.map((name) => (
              <td key={name} data-label={t(name)}>
                {countText(club[name])}
              </td>
            ))}
            <td data-label={t('stored')}>{sizeText(club.bytes)}</td>
            <td class="word club-notes">{notesOf(club)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function notesOf({ conflicts, erasures }: ArchiveClub): string {
  const notes = [conflicts > 0 && t('changed_twice', { n: conflicts }), erasures > 0 && t('erased', { n: erasures })];
  return notes.filter(Boolean).join(', ');
}
