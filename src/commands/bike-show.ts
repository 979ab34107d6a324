/** `earshot bike show|check|start`: what a sheet says, what it leaves open, and where to begin. */
import { checkSheet } from '../bike/check.ts';
import type { Style } from '../report/style.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { sheetOf } from './known-bikes.ts';
import { loadSheet } from './load-sheet.ts';
import { openBike } from './open-bike.ts';
import { ownSettings } from './own-settings.ts';

interface SheetOptions {
  readonly file: string;
  readonly format: 'text' | 'json';
  readonly style: Style;
}

export async function bikeShow({ file, format, style }: SheetOptions, io: Io): Promise<ExitCode> {
  const [{ sheetRows }, { sheetShown }, { writeSheet }] = await Promise.all([
    import('../report/sheet-rows.ts'),
    import('../report/sheet-text.ts'),
    import('../bike/write.ts'),
  ]);
  const { sheet } = await openBike(file, io);
  const rows = sheetRows(sheet);
  if (format === 'json') await io.out(json({ format: 1, bike: sheet.id, sheet: writeSheet(sheet), rows }));
  else await io.out(sheetShown(sheet, rows, style));
  return EXIT.done;
}

/** @returns 1 when something must be looked at before riding, or the file cannot be read */
export async function bikeCheck({ file, format, style }: SheetOptions, io: Io): Promise<ExitCode> {
  let loaded: Awaited<ReturnType<typeof loadSheet>>;
  try {
    loaded = await loadSheet(sheetOf(file, io), io.cwd, await ownSettings(io));
  } catch (error) {
    // A sheet with errors is what a check is for; a file that is not there is not.
    if (
      !(error instanceof Refusal) ||
      !error.message.startsWith(`${file}:`) ||
      !hasPlace(error.message, file)
    )
      throw error;
    if (format === 'json')
      await io.out(json({ format: 1, bike: null, problems: error.message.split('\n'), checks: [] }));
    else io.err(`${error.message}\n`);
    return EXIT.some;
  }
  const { sheet, warnings } = loaded;
  const checks = checkSheet(sheet);
  if (format === 'json') await io.out(json({ format: 1, bike: sheet.id, problems: warnings, checks }));
  else {
    const { checkText } = await import('../report/sheet-text.ts');
    await io.out(checkText(sheet.name ?? sheet.id, checks, warnings, style));
  }
  return checks.some(({ severity }) => severity === 'check') || warnings.length > 0 ? EXIT.some : EXIT.done;
}

function hasPlace(message: string, file: string): boolean {
  return /^:\d/.test(message.slice(file.length)) || message.includes(' › ');
}

export interface StartOptions extends SheetOptions {
  /** where to write a sheet with these starting points */
  readonly write?: string | undefined;
  readonly force: boolean;
}

export async function bikeStart(options: StartOptions, io: Io): Promise<ExitCode> {
  const [{ startOf }, { fitDampers, bikeFromSheet }, { startText }] = await Promise.all([
    import('../dynamics/start.ts'),
    import('../dynamics/index.ts'),
    import('../report/start-text.ts'),
  ]);
  const { sheet } = await openBike(options.file, io);
  const fits = await fitDampers(sheet);
  const start = startOf(sheet, fits);
  const { notes } = bikeFromSheet(sheet, fits);
  if (options.write !== undefined) {
    const [{ sheetText }, { writeNew }] = await Promise.all([
      import('./sheet-text.ts'),
      import('./write-new.ts'),
    ]);
    const head = `# Starting points for ${sheet.id}, worked out by earshot. Where the maker's sheet says otherwise, it wins.\n`;
    await writeNew(options.write, sheetText(start.sheet, options.write, head), options.force, io);
    io.err(`Written: ${options.write}\n`);
  }
  const { sheet: begun, ...said } = start;
  if (options.format === 'json') {
    const { writeSheet } = await import('../bike/write.ts');
    await io.out(json({ format: 1, bike: sheet.id, ...said, notes, sheet: writeSheet(begun) }));
  } else await io.out(startText(sheet, start, notes, options.style));
  return EXIT.done;
}

function json(data: unknown): string {
  return `${JSON.stringify(data, null, 2)}\n`;
}
