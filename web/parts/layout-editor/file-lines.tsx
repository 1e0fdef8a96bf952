import type { FileLine } from '../../../shared/schemas/layout-preview.ts';
import { TableScroll } from '../table-scroll.tsx';

const ROLE_WORDS: Record<FileLine['role'], string> = {
  preamble: 'above the table',
  names: 'names',
  units: 'units',
  row: 'row',
};

/** The first lines of the file as they are, each with what it is taken for. */
export function FileLines({ lines, name }: { lines: FileLine[]; name: string }) {
  return (
    <TableScroll label={`First lines of ${name}`}>
      <table class="file-lines">
        <tbody>
          {lines.map(({ line, role, text }) => (
            <tr key={line} class={role}>
              <th scope="row">{line}</th>
              <td class="role">{ROLE_WORDS[role]}</td>
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
