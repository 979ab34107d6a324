/// <reference lib="dom" />
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { earshot } from '../support/io.ts';
import { missingBrowser, openBrowser } from './chromium.ts';

const EXAMPLES = resolve(import.meta.dirname, '../../examples');
const missing = missingBrowser(process.env);
if (missing !== undefined && !missing.fails) process.stderr.write(`\nSKIPPED: ${missing.says}\n`);

const ATTACK =
  '</style></title><script>window.ran = 1; fetch("http://127.0.0.1:9/")</script><img src="http://127.0.0.1:9/x" onerror="window.ran = 2">';
/** A case whose every text is markup, endless, or both, on a bike with every knob. */
function hostile(): object {
  const bike = parse(readFileSync(join(EXAMPLES, 'bikes/all-knobs.yaml'), 'utf8')) as object;
  const kase = parse(readFileSync(join(EXAMPLES, 'cases/fork-packs-down.yaml'), 'utf8')) as {
    answers: object;
  };
  const unknown = Object.fromEntries(
    [
      'lone-hit-ride@rear',
      'lone-hit-ride@front',
      'chatter@front',
      'chatter@rear',
      'stiction@front',
      'stiction@rear',
    ].map((id) => [id, 'cannot-tell']),
  );
  return {
    case: 1,
    id: `${ATTACK} ${'W'.repeat(300)}`.slice(0, 200),
    bike: { ...bike, name: 'W'.repeat(200) },
    said: `${ATTACK} ${'W'.repeat(10_000)}`,
    answers: { ...kase.answers, ...unknown },
  };
}

/** One of each kind of result, and those with the most to say. */
const NAMES = [
  'fork-packs-down',
  'shock-kicks-off-lips',
  'contradicts-itself',
  'dives-on-the-brakes',
  'cannot-tell-yet',
  'knocks-and-leaks',
  'nothing-wrong',
];

describe.skipIf(missing !== undefined && !missing.fails)('a pit sheet in a real browser', () => {
  let browser: Browser;
  let dir: string;

  const write = async (name: string, argv: readonly string[], stdin?: string): Promise<void> => {
    const to = join(dir, `${name}.html`);
    const ran = await earshot(['report', ...argv, '--out', to], stdin === undefined ? {} : { stdin });
    expect(ran).toEqual({ code: 0, out: '', err: '' });
  };

  beforeAll(async () => {
    if (missing !== undefined) throw new Error(missing.says);
    dir = mkdtempSync(join(tmpdir(), 'earshot-browser-'));
    browser = await openBrowser();
    for (const name of NAMES) await write(name, [join(EXAMPLES, 'cases', `${name}.yaml`)]);
    await write('hostile', ['-'], `${JSON.stringify(hostile())}\n`);
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    if (dir !== undefined) rmSync(dir, { recursive: true });
  });

  /** Opens a sheet and keeps what it said and asked for. */
  const open = async (
    name: string,
    width: number,
    colorScheme: 'light' | 'dark' = 'light',
  ): Promise<{ page: Page; heard: string[] }> => {
    const page = await browser.newPage({ viewport: { width, height: 800 }, colorScheme });
    const heard: string[] = [];
    const url = pathToFileURL(join(dir, `${name}.html`)).href;
    page.on('console', (message) => heard.push(`console: ${message.text()}`));
    page.on('pageerror', (error) => heard.push(`error: ${error.message}`));
    page.on('dialog', (dialog) => heard.push(`dialog: ${dialog.message()}`));
    page.on('request', (request) => {
      if (request.url() !== url && request.url() !== 'data:,') heard.push(`request: ${request.url()}`);
    });
    await page.goto(url);
    return { page, heard };
  };

  test.for([...NAMES, 'hostile'])(
    '%s: silent, no wider than a phone of 360 pixels, one page on A4 and on Letter',
    async (name) => {
      const { page, heard } = await open(name, 360);
      const wide = await page.evaluate(() => ({
        page: document.documentElement.scrollWidth,
        // What sticks out would be cut off where the page hides it.
        out: [...document.querySelectorAll('body *')]
          .filter((e) => e.getBoundingClientRect().right > 360.5)
          .map((e) => `${e.tagName} ${e.textContent?.trim().slice(0, 30)}`),
      }));
      expect(wide).toEqual({ page: 360, out: [] });
      expect(pageCount(await page.pdf({ format: 'A4' }))).toBe(1);
      expect(pageCount(await page.pdf({ format: 'Letter' }))).toBe(1);
      expect(heard).toEqual([]);
      await page.close();
    },
  );

  test('the count of printed pages can count', async () => {
    const page = await browser.newPage();
    await page.setContent('<p style="height:400mm">one</p><p>two</p>');
    expect(pageCount(await page.pdf({ format: 'A4' }))).toBe(2);
    await page.close();
  });

  test('letters in print are never smaller than seven points, but in drawings', async () => {
    for (const name of ['fork-packs-down', 'hostile']) {
      const { page } = await open(name, 800);
      await page.emulateMedia({ media: 'print' });
      const least = await page.evaluate(() => Number.parseFloat(getComputedStyle(document.body).fontSize));
      expect(least).toBeGreaterThanOrEqual((7 / 72) * 96 - 0.2);
      await page.close();
    }
  });

  test('follows light and dark, and prints dark on white whichever is set', async () => {
    const grounds = async (scheme: 'light' | 'dark') => {
      const { page } = await open('fork-packs-down', 800, scheme);
      const read = () =>
        page.evaluate(() => {
          const card = getComputedStyle(document.querySelector('.card')!);
          return [card.backgroundColor, card.color];
        });
      const screen = await read();
      await page.emulateMedia({ media: 'print' });
      const print = await read();
      await page.close();
      return { screen, print };
    };
    const [light, dark] = [await grounds('light'), await grounds('dark')];
    expect(light.screen).toEqual(['rgb(252, 250, 244)', 'rgb(31, 29, 26)']);
    expect(dark.screen).toEqual(['rgb(29, 27, 23)', 'rgb(236, 231, 218)']);
    expect([light.print, dark.print]).toEqual([
      ['rgb(255, 255, 255)', 'rgb(0, 0, 0)'],
      ['rgb(255, 255, 255)', 'rgb(0, 0, 0)'],
    ]);
  });

  test('a case whose texts are markup shows them and runs nothing', async () => {
    const { page } = await open('hostile', 800);
    const found = await page.evaluate(() => ({
      ran: (globalThis as { ran?: number }).ran,
      active: document.querySelectorAll('script,img,iframe,object,embed,a,form').length,
      styles: document.querySelectorAll('style').length,
      said: document.querySelector('.said')?.textContent ?? '',
    }));
    expect(found).toMatchObject({ active: 0, styles: 1 });
    expect(found.ran).toBeUndefined();
    expect(found.said).toContain('<script>window.ran = 1;');
    expect(found.said.length).toBeLessThan(400);
    await page.close();
  });

  test('would not run a script even if one got in', async () => {
    const { page, heard } = await open('fork-packs-down', 800);
    const ran = await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'window.ran = 1';
      document.body.append(script);
      const image = document.createElement('img');
      image.src = 'http://127.0.0.1:9/x.png';
      document.body.append(image);
      return (globalThis as { ran?: number }).ran;
    });
    expect(ran).toBeUndefined();
    await expect.poll(() => heard.filter((line) => line.includes('Content Security Policy')).length).toBe(2);
    await page.close();
  });
});

/** Pages of a PDF as this browser writes them: one page object each, not compressed. */
function pageCount(pdf: Buffer): number {
  return pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}
