/** `earshot bike check`: what a sheet leaves open, and what on it cannot be right. */
import { command, format, SHEET_OR_BIKE } from '../../takes.ts';
import { checkSheet } from '../../../bike/check/check.ts';
import { checkText } from '../../../report/bike/sheet-text.ts';
import { EXIT, Refusal } from '../../../host/io.ts';
import { json } from '../../../form/text.ts';
import { sheetOf } from '../../../workspace/bikes/known-bikes.ts';
import { setLine } from '../../../workspace/bikes/set-line.ts';
import { loadSheet } from '../../../workspace/bikes/load-sheet.ts';
import { loadRules } from '../../../workspace/rules/load-rules.ts';

/** Exit code 1 when something must be looked at before riding, or the file cannot be read. */
export const bikeCheck = command({
  about: 'what is missing, over a limit or contradictory; exit code 1 when something must be done',
  args: SHEET_OR_BIKE.args,
  options: { ...SHEET_OR_BIKE.options, format: format('text', 'json') },
  examples: [['earshot bike check my-bike.yaml', 'what is missing or cannot be right']],
  run: async ({ file, format }, { io, rules, style }) => {
    const pack = await loadRules(io, io.packs);
    let loaded: Awaited<ReturnType<typeof loadSheet>>;
    try {
      loaded = await loadSheet(sheetOf(file, io), io.cwd, pack.adjusters);
    } catch (error) {
      // A sheet with errors is what a check is for; a file that is not there is not.
      if (!(error instanceof Refusal) || error.mistakes === undefined) throw error;
      if (format === 'json')
        await io.out(json({ format: 1, bike: null, problems: error.mistakes, checks: [] }));
      else io.err(`${error.message}\n`);
      return EXIT.some;
    }
    const { sheet, warnings } = loaded;
    const checks = checkSheet(sheet, pack.sheetCheck);
    if (format === 'json') await io.out(json({ format: 1, bike: sheet.id, problems: warnings, checks }));
    else {
      const line = (number: string): string => setLine([number], file, rules);
      await io.out(checkText(sheet.name ?? sheet.id, checks, warnings, await style(), line));
    }
    return checks.some(({ severity }) => severity === 'check') || warnings.length > 0 ? EXIT.some : EXIT.done;
  },
});
