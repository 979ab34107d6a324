/** The last screen of an interview, drawn over every example case: nothing of it that must be seen scrolls away at 80 × 24. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { endScreen, resultOf } from '../../src/cli/asking/interview-report.ts';
import type { Io } from '../../src/host/io.ts';
import { ROOT } from '../../src/host/root.ts';
import { begin } from '../../src/interview/session.ts';
import { PLAIN } from '../../src/report/style.ts';
import { readRecords } from '../../src/workspace/cases/records.ts';
import { openWorkspace } from '../../src/workspace/workspace.ts';

const [ROWS, COLUMNS] = [24, 80];
/** As many as there ever are below it, and with them what now, the letters, the number and a blank. */
const CHOICES = 4;
const BELOW = CHOICES + 4;
const SAID =
  'it feels like a rock on the braking bumps and bucks me off the lip and my hands are dead at the bottom of it all';

const io = { cwd: ROOT, env: process.env, err: () => undefined, packs: [] } as unknown as Io;

it('shows verdict, change, way back and strongest caution above the question, whoever is spoken to', async () => {
  const workspace = await openWorkspace(io, [], undefined, true);
  const folder = join(ROOT, 'examples/cases');
  const changes: string[] = [];
  for await (const record of readRecords(
    readdirSync(folder).map((file) => join(folder, file)),
    io,
  )) {
    const opened = await workspace.open(record);
    if ('faults' in opened) throw new Error(opened.faults.join('\n'));
    const { bench, kase } = opened;
    const [state] = begin(workspace.model, bench, kase);
    for (const said of [state, { ...state, said: SAID }])
      for (const audience of ['mechanic', 'rider'] as const) {
        const result = await resultOf(workspace, bench, said);
        const screen = endScreen(result, bench, PLAIN, audience, ROWS, CHOICES);
        const lines = screen.trimEnd().split('\n');
        expect(lines.length + BELOW, `${record.name}\n${screen}`).toBeLessThanOrEqual(ROWS);
        expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(COLUMNS);
        expect(lines.at(-1)!.length === 0 ? lines.at(-2) : screen).toContain('m: ');
        if (result.verdict !== 'change') continue;
        changes.push(record.name);
        expect(screen).toContain('Do this first');
        const first = result.adjustments.find(({ id }) => id === result.first)!;
        if (first.change !== null) expect(screen, record.name).toMatch(/To undo|Write down/);
        if (result.cautions.some(({ level }) => level !== 'note')) expect(screen).toMatch(/^ {2}! /m);
      }
  }
  expect(new Set(changes).size).toBeGreaterThanOrEqual(10);
});
