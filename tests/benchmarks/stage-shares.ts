import { Session } from 'node:inspector/promises';

interface Node {
  id: number;
  callFrame: { functionName: string };
  children?: number[];
}

/**
 * Shares of the time that work takes by stage, from samples of the processor.
 * @param stages functions by name, each with what it is told as; time is counted to the innermost of them that was running
 * @returns shares of all of the time, the greatest first; what ran in none of them as 'other'
 */
export async function stageShares(stages: Record<string, string>, work: () => void): Promise<[string, number][]> {
  const session = new Session();
  session.connect();
  await session.post('Profiler.enable');
  await session.post('Profiler.setSamplingInterval', { interval: 200 });
  await session.post('Profiler.start');
  work();
  const { profile } = await session.post('Profiler.stop');
  session.disconnect();
  const nodes = profile.nodes as Node[];
  const parents = new Map(nodes.flatMap(({ id, children = [] }) => children.map((child) => [child, id] as const)));
  const byId = new Map(nodes.map((node) => [node.id, node]));
  const stageOf = (id: number | undefined): string => {
    for (let at = id; at !== undefined; at = parents.get(at)) {
      const stage = stages[byId.get(at)!.callFrame.functionName];
      if (stage) return stage;
    }
    return 'other';
  };
  const times = new Map<string, number>();
  let total = 0;
  for (const [k, id] of profile.samples!.entries()) {
    const taken = profile.timeDeltas![k];
    const stage = stageOf(id);
    times.set(stage, (times.get(stage) ?? 0) + taken);
    total += taken;
  }
  return [...times].map(([stage, taken]): [string, number] => [stage, taken / total]).sort((a, b) => b[1] - a[1]);
}
