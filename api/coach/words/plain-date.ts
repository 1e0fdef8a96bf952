const MONTHS = 'January February March April May June July August September October November December'.split(' ');

/** `2 September`, with the year when it is not the same as the other date's. */
export function plainDate(date: string, beside = date): string {
  const [year, month, day] = date.split('-');
  return `${Number(day)} ${MONTHS[Number(month) - 1]}${beside.startsWith(year) ? '' : ` ${year}`}`;
}
