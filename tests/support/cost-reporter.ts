/**
 * What each test file costs in CPU time, its child processes too, costliest first; with one worker only, so that no two
 * files run at once: npx vitest run --config tests/vitest.config.ts --maxWorkers=1 --no-file-parallelism
 * --reporter=./tests/support/cost-reporter.ts
 */
import { existsSync, readFileSync } from 'node:fs';
import type { Reporter, TestModule } from 'vitest/node';

/** Seconds of this process, and of its children that have ended. */
function spent(): number {
  const { user, system } = process.cpuUsage();
  const own = (user + system) / 1e6;
  if (!existsSync('/proc/self/stat')) return own;
  // Fields 16 and 17, in hundredths of a second; the name before them may hold blanks.
  const fields = readFileSync('/proc/self/stat', 'utf8').split(') ')[1]!.split(' ');
  return own + (Number(fields[13]) + Number(fields[14])) / 100;
}

export default class CostReporter implements Reporter {
  readonly #costs: { readonly file: string; readonly cost: number }[] = [];
  #last = 0;

  onTestRunStart(): void {
    this.#last = spent();
  }

  onTestModuleEnd(module: TestModule): void {
    const now = spent();
    this.#costs.push({ file: module.relativeModuleId, cost: now - this.#last });
    this.#last = now;
    process.stderr.write(module.ok() ? '.' : `\n${module.relativeModuleId} failed\n`);
    if (!module.ok())
      for (const test of module.children.allTests('failed'))
        process.stderr.write(`  ${test.fullName}: ${test.result().errors?.[0]?.message}\n`);
  }

  onTestRunEnd(): void {
    const sum = this.#costs.reduce((all, { cost }) => all + cost, 0);
    for (const { file, cost } of this.#costs.toSorted((a, b) => b.cost - a.cost))
      process.stdout.write(`${cost.toFixed(1).padStart(7)} s  ${file}\n`);
    process.stdout.write(`${sum.toFixed(1).padStart(7)} s  ${this.#costs.length} files\n`);
  }
}
