import { makeSignal } from './make-signal.ts';

/**
 * A large recording as bytes, piece by piece and never whole in memory: time, nine channels (three of a magnetometer, which nobody
 * needs), 1000 Hz, five decimals, as loggers write them.
 * @param bytes about how long it shall be
 */
export async function* largeCsv(bytes: number): AsyncGenerator<Uint8Array> {
  const signal = makeSignal(7, 1000, 1000, 3000);
  const tails = signal.acc.map((acc, row) => {
    const magnet = [21.1 + Math.sin(row / 90), -4.2, 40.3].map((value) => value.toFixed(3));
    return `,${[...acc.map((v) => v.toFixed(5)), ...signal.gyr[row].map((v) => v.toFixed(5)), ...magnet].join(',')}\n`;
  });
  yield Buffer.from(
    'time_s,acc_x_mps2,acc_y_mps2,acc_z_mps2,gyr_x_radps,gyr_y_radps,gyr_z_radps,mag_x_ut,mag_y_ut,mag_z_ut\n',
  );
  let written = 0;
  for (let row = 0; written < bytes; ) {
    const lines: string[] = [];
    for (let i = 0; i < 3000; i++, row++) lines.push((row / 1000).toFixed(3) + tails[row % tails.length]);
    const piece = Buffer.from(lines.join(''));
    written += piece.length;
    yield piece;
  }
}
