import { terminalSpeech } from './speech.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import type { AthleteList } from '../../shared/schemas/athlete.ts';
import type { Reanalysis, ReanalysisReport } from '../../shared/schemas/reanalysis.ts';
import { changeTable } from './change-table.ts';
import type { Command, OptionValues } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import { readJsonFile } from './input-files.ts';
import type { ApiClient } from './api-client.ts';
import { withApi } from './with-api.ts';

const ASK_EVERY_MS = 300;

export const reanalyzeCommand: Command = {
  name: 'reanalyze',
  summary: 'Stored repetitions analysed again, with other settings or a newer version, and new compared with old.',
  options: {
    settings: { value: 'FILE', help: 'JSON with analysis settings that differ from the defaults' },
    athlete: { value: 'NAME', help: 'only this athlete' },
    from: { value: 'YYYY-MM-DD', help: 'only sessions from this day on' },
    to: { value: 'YYYY-MM-DD', help: 'only sessions up to this day' },
    accept: { help: 'shows the new analyses from now on; without it they only stand beside the old ones' },
    data: DATA_OPTION,
  },
  details: 'Old analyses are kept in any case, and a re-analysis can be taken back in the API (/api/docs).',
  run: (options) => withApi(dataFolder(options), (api) => runReanalyze(api, options)),
};

async function runReanalyze(api: ApiClient, options: OptionValues): Promise<ExitCode> {
  const text = options as Record<string, string | undefined>;
  const body = {
    athlete_id: text.athlete === undefined ? undefined : await athleteId(api, text.athlete),
    from: text.from,
    to: text.to,
    settings: text.settings === undefined ? undefined : await readJsonFile(text.settings),
  };
  const { reanalysis_id, total } = await api.call<Reanalysis>('POST', '/reanalyses', body);
  process.stdout.write(`${total} repetitions\n`);
  const report = await waitForEnd(api, reanalysis_id);
  process.stdout.write(changeTable(report.changes));
  process.stdout.write(`${report.done} analysed again, ${report.failed} failed\n`);
  for (const { repetition_id, fault } of report.failures) {
    process.stderr.write(`repetition ${repetition_id}, ${fault.code}: ${terminalSpeech().tell(fault).message}\n`);
  }
  if (options.accept === true) {
    await api.call('POST', `/reanalyses/${reanalysis_id}/accept`);
    process.stdout.write('the new analyses are the ones shown from now on\n');
  }
  return report.failed > 0 ? EXIT.failed : EXIT.done;
}

async function athleteId(api: ApiClient, name: string): Promise<number> {
  const { items } = await api.call<AthleteList>('GET', '/athletes');
  const found = items.find((athlete) => athlete.name === name);
  if (found) return found.athlete_id;
  throw new FaultError(fault('ATHLETE_NOT_FOUND.by_name', { name }, { name }));
}

async function waitForEnd(api: ApiClient, id: number): Promise<ReanalysisReport> {
  let tenth = 0;
  for (;;) {
    const state = await api.call<ReanalysisReport>('GET', `/reanalyses/${id}`);
    if (state.state !== 'working') return state;
    const now = Math.floor((10 * (state.done + state.failed)) / Math.max(1, state.total));
    if (now > tenth) process.stdout.write(`${state.done + state.failed} of ${state.total}\n`);
    tenth = now;
    await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
  }
}
