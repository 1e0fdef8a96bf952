/** Acceleration in counts of an untold scale, moving all the while: nothing in the file tells what one count is. */
export function countsWithoutUnit(): string {
  const rows = ['t,ax,ay,az'];
  for (let i = 0; i < 4000; i++) {
    const t = i / 200;
    const cells = [1000 * Math.sin(9 * t), 4096 + 2000 * Math.sin(17 * t), 300 * Math.cos(5 * t)];
    rows.push([i * 5, ...cells.map(Math.round)].join(','));
  }
  return `${rows.join('\n')}\n`;
}
