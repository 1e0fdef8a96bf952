import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import type { FileLine } from '../../../shared/schemas/layout-preview.ts';
import { TableScroll } from '../table-scroll.tsx';

const t = phrasesOf('files', filesWords);

const roleWords = (): Record<FileLine['role'], string> => ({
  preamble: t('above_the_table'),
  names: t('names'),
  units: t('units'),
  row: t('row'),
});

/** The first lines of the file as they are, each with what it is taken for. */
export function FileLines({ lines, name }: { lines: FileLine[]; name: string }) {
  return (
    <TableScroll label={t('first_lines_of', { name })}>
      <table class="file-lines">
        <tbody>
          {lines.map(({ line, role, text }) => (
            <tr key={line} class={role}>
              <th scope="row">{line}</th>
              <td class="role">{roleWords()[role]}</td>
              <td>
                <code>{text}</code>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}
