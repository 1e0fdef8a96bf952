/**
 * The method's own report: `npm run validate [-- --quick] [--json] [--only NAME] [--cases]`.
 * Every recording with a reference and every simulated one with known contacts, as recorded and made worse in known ways;
 * contacts found, bias, SD, limits of agreement, coverage of stated intervals, each beside its target.
 */
import { parseArgs } from 'node:util';
import { recordingsFolders } from '../helpers/recordings.ts';
import { runnerTable } from './validation/by-runner.ts';
import { coverageTable } from './validation/coverage-table.ts';
import { figuresTable, limitsTable, targetsTable } from './validation/print-report.ts';
import { type Report, validate } from './validation/validate-all.ts';

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    quick: { type: 'boolean', default: false },
    only: { type: 'string', default: '' },
    cases: { type: 'boolean', default: false },
  },
});

const report = await validate({ folders: recordingsFolders(), quick: values.quick, only: values.only });
if (values.json) console.log(JSON.stringify(report, null, 1));
else printReport(report);

function printReport(report: Report): void {
  console.log('\nPeople on force plates, contact at 50 N, each judged by models that never saw them');
  console.log(runnerTable(report.runners));
  if (values.cases) console.log(`\nEvery case\n${figuresTable(report.cases)}`);
  for (const section of report.sections) {
    console.log(`\n${section.title}`);
    console.log(figuresTable(section.rows, section.quantities));
  }
  console.log('\nContact time, ms: bias, lower and upper limit of agreement, each with its 95 % confidence interval');
  console.log(limitsTable(report.sections.flatMap((section) => (section.quantities ? [] : section.rows))));
  console.log(
    '\nStated 95 % intervals: how many hold the truth, and by what they would have to be widened to hold 95 %',
  );
  console.log(coverageTable(report.coverage));
  for (const note of report.notes) console.log(`\n${note}`);
  console.log('\nTargets');
  console.log(targetsTable(report.targets));
  const met = report.targets.filter((line) => line.met).length;
  console.log(
    `\n${met} of ${report.targets.length} targets met; analysis took ${report.analysis_ms.toFixed(0)} ms in the mean.`,
  );
}
