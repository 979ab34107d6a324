/** What the model of a bike said is kept by the content of its sheet, and never believed when it was touched. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import { ofBike } from '../../src/workspace/bikes/kept-bike.ts';
import type { Io } from '../../src/host/io.ts';

let home: string;
beforeEach(() => (home = mkdtempSync(join(tmpdir(), 'kept-'))));
afterEach(() => rmSync(home, { recursive: true, force: true }));

const io = (): Io => ({ env: { EARSHOT_HOME: home }, cwd: home }) as unknown as Io;
const sheet = (now: number): BikeSheet => ({ id: 'b', ends: { now } }) as unknown as BikeSheet;
const isNumber = (kept: unknown): kept is number => typeof kept === 'number';
const folder = (): string => join(home, 'earshot', 'bikes');

describe('what was worked out of a bike', () => {
  it('is not worked out again for the same sheet', async () => {
    let made = 0;
    const get = () => ofBike(io(), sheet(1), 'x', isNumber, async () => ++made);
    expect([await get(), await get()]).toEqual([1, 1]);
  });
  it('is worked out anew for a sheet with another number, and for another question', async () => {
    let made = 0;
    const make = async () => ++made;
    await ofBike(io(), sheet(1), 'x', isNumber, make);
    await ofBike(io(), sheet(2), 'x', isNumber, make);
    await ofBike(io(), sheet(1), 'y', isNumber, make);
    expect(made).toBe(3);
  });
  it('is not believed when somebody wrote into it, nor under another name', async () => {
    await ofBike(io(), sheet(1), 'x', isNumber, async () => 1);
    const [name] = readdirSync(folder()).filter((n) => n.endsWith('.json'));
    const path = join(folder(), name!);
    const text = readFileSync(path, 'utf8');
    writeFileSync(path, text.replace(/\n1$/, '\n7'));
    expect(await ofBike(io(), sheet(1), 'x', isNumber, async () => 2)).toBe(2);
    // Sealed again by the line above; put under another bike's name it is no answer there.
    await ofBike(io(), sheet(2), 'x', isNumber, async () => 5);
    const other = readdirSync(folder()).find((n) => n.endsWith('.json') && n !== name)!;
    writeFileSync(join(folder(), other), readFileSync(path));
    expect(await ofBike(io(), sheet(2), 'x', isNumber, async () => 6)).toBe(6);
  });
  it('is worked out where nothing can be kept', async () => {
    const nowhere = { env: { EARSHOT_HOME: join(home, 'file', 'below') }, cwd: home } as unknown as Io;
    writeFileSync(join(home, 'file'), '');
    expect(await ofBike(nowhere, sheet(1), 'x', isNumber, async () => 3)).toBe(3);
  });
});
