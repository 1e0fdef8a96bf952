/**
 * The method's own report: `npm run validate [-- --quick] [--json FILE] [--only NAME] [--cases]`.
 * Every recording with a reference and every simulated one with known contacts, as recorded and made worse in known ways;
 * contacts found, bias, SD, limits of agreement, coverage of stated intervals, each beside its target.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { recordingsFolder } from '../helpers/recordings.ts';
import { coverageTable } from './validation/coverage-table.ts';
import { figuresTable, limitsTable, targetsTable } from './validation/print-report.ts';
import { validate } from './validation/validate-all.ts';

const { values } = parseArgs({
  options: {
    json: { type: 'string' },
    quick: { type: 'boolean', default: false },
    only: { type: 'string', default: '' },
    cases: { type: 'boolean', default: false },
  },
});

const report = await validate({ folder: recordingsFolder(), quick: values.quick, only: values.only });
if (values.cases) console.log(`\nEvery case\n${figuresTable(report.cases)}`);
for (const section of report.sections) {
  console.log(`\n${section.title}`);
  console.log(figuresTable(section.rows, section.quantities));
}
console.log('\nContact time, ms: bias, lower and upper limit of agreement, each with its 95 % confidence interval');
console.log(limitsTable(report.sections.flatMap((section) => (section.quantities ? [] : section.rows))));
console.log('\nStated 95 % intervals: how many hold the truth, and by what they would have to be widened to hold 95 %');
console.log(coverageTable(report.coverage));
for (const note of report.notes) console.log(`\n${note}`);
console.log('\nTargets');
console.log(targetsTable(report.targets));
const met = report.targets.filter((line) => line.met).length;
console.log(
  `\n${met} of ${report.targets.length} targets met; analysis took ${report.analysis_ms.toFixed(0)} ms in the mean.`,
);
if (values.json) {
  writeFileSync(values.json, JSON.stringify(report, null, 1));
  console.log(`Written to ${values.json}`);
}
