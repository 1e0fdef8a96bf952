import { parentPort } from 'node:worker_threads';
import { type ClubRepetitionOrder, makeClubRepetition } from './club-repetition.ts';

parentPort?.on('message', ({ id, order }: { id: number; order: ClubRepetitionOrder }) => {
  parentPort?.postMessage({ id, made: makeClubRepetition(order) });
});
