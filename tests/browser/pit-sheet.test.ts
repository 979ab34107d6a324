/// <reference lib="dom" />
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
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

const CASES = readdirSync(join(EXAMPLES, 'cases')).map((file) => file.replace(/\.yaml$/, ''));
const BIKES = readdirSync(join(EXAMPLES, 'bikes')).map((file) => file.replace(/\.yaml$/, ''));
/** Every example on its own bike or on none, and those on none on one of the bikes; a case without an answer; a hostile one. */
const SHEETS = [
  ...CASES.map((name) => ({ name, argv: [`${name}.yaml`] })),
  ...CASES.filter((name) => !/^bike:/m.test(readFileSync(join(EXAMPLES, `cases/${name}.yaml`), 'utf8'))).map(
    (name, i) => {
      const bike = BIKES[i % BIKES.length]!;
      return { name: `${name} on ${bike}`, argv: [`${name}.yaml`, '--bike', `../bikes/${bike}.yaml`] };
    },
  ),
  { name: 'nothing answered', argv: ['-'], stdin: '{"case":1,"id":"empty","answers":{}}\n' },
  { name: 'hostile', argv: ['-'], stdin: `${JSON.stringify(hostile())}\n` },
];
/** One of each kind of result, and the hostile one. */
const KINDS = [
  'fork-packs-down',
  'dives-on-the-brakes',
  'contradicts-itself',
  'cannot-tell-yet',
  'knocks-and-leaks',
  'hostile',
];

describe.skipIf(missing !== undefined && !missing.fails)('a pit sheet in a real browser', () => {
  let browser: Browser;
  let dir: string;
  /** One for all: a page of its own costs more than what is looked at on it. */
  let page: Page;
  let url = '';
  let heard: string[] = [];

  beforeAll(async () => {
    if (missing !== undefined) throw new Error(missing.says);
    dir = mkdtempSync(join(tmpdir(), 'earshot-browser-'));
    browser = await openBrowser();
    page = await browser.newPage();
    page.on('console', (message) => heard.push(`console: ${message.text()}`));
    page.on('pageerror', (error) => heard.push(`error: ${error.message}`));
    page.on('dialog', (dialog) => heard.push(`dialog: ${dialog.message()}`));
    page.on('request', (request) => {
      if (request.url() !== url && request.url() !== 'data:,') heard.push(`request: ${request.url()}`);
    });
    for (const { name, argv, ...input } of SHEETS) {
      const out = ['--out', join(dir, `${name}.html`)];
      const ran = await earshot(['report', ...argv, ...out], { cwd: join(EXAMPLES, 'cases'), ...input });
      // A case that tells of its bike in words is told that the sheet goes before it.
      expect({ ...ran, err: ran.err.replace(/^.*\(has:\) was not used.*\n/gm, '') }).toEqual({
        code: 0,
        out: '',
        err: '',
      });
    }
  });
  afterAll(async () => {
    await browser?.close();
    if (dir !== undefined) rmSync(dir, { recursive: true });
  });

  /** Opens a sheet and keeps what it says and asks for, until the next is opened. */
  const open = async (name: string, width = 800, colorScheme: 'light' | 'dark' = 'light'): Promise<void> => {
    await page.setViewportSize({ width, height: 800 });
    await page.emulateMedia({ media: null, colorScheme });
    heard = [];
    url = pathToFileURL(join(dir, `${name}.html`)).href;
    await page.goto(url);
  };

  test.for(SHEETS.map(({ name }) => name))(
    '%s: silent, no wider than a phone of 360 pixels, one page on paper',
    async (name) => {
      await open(name, 360);
      const wide = await page.evaluate(() => ({
        page: document.documentElement.scrollWidth,
        // What sticks out would be cut off where the page hides it.
        out: [...document.querySelectorAll('body *')]
          .filter((e) => e.getBoundingClientRect().right > 360.5)
          .map((e) => `${e.tagName} ${e.textContent?.trim().slice(0, 30)}`),
      }));
      expect(wide).toEqual({ page: 360, out: [] });
      // As wide as A4 and as high as Letter: what fits on that fits on either.
      expect(pageCount(await page.pdf({ width: '210mm', height: '279.4mm' }))).toBe(1);
      expect(heard).toEqual([]);
    },
  );

  test.for(KINDS)('%s: one page on A4 and on Letter', async (name) => {
    await open(name);
    expect(pageCount(await page.pdf({ format: 'A4' }))).toBe(1);
    expect(pageCount(await page.pdf({ format: 'Letter' }))).toBe(1);
  });

  test('the count of printed pages can count', async () => {
    // Away from a sheet, which lets no style in.
    await page.goto('about:blank');
    await page.setContent('<p style="height:400mm">one</p><p>two</p>');
    expect(pageCount(await page.pdf({ format: 'A4' }))).toBe(2);
  });

  test.for(KINDS)(
    '%s: in print no letter is under six points, no blank too small for a pen',
    async (name) => {
      // The text column of A4 between its margins; drawings are scaled with it.
      await open(name, Math.floor(mm(194)));
      await page.emulateMedia({ media: 'print' });
      const found = await page.evaluate(() => {
        const size = (e: Element): number => {
          const drawing = e.closest<SVGSVGElement>('svg.plot');
          const scale =
            drawing === null ? 1 : drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width;
          return Number.parseFloat(getComputedStyle(e).fontSize) * scale;
        };
        const withText = [...document.querySelectorAll('body *')].filter((e) =>
          [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent?.trim() !== ''),
        );
        const boxes = (selector: string) =>
          [...document.querySelectorAll(selector)].map((e) => e.getBoundingClientRect());
        return {
          body: size(document.body),
          letters: Math.min(...withText.map(size)),
          high: Math.min(...boxes('.runs td, td.blank, .line-to-write, .pen span').map((box) => box.height)),
          wide: Math.min(...boxes('.runs .rate, td.blank').map((box) => box.width)),
        };
      });
      expect(found.body).toBeGreaterThanOrEqual(mm(25.4 * (7 / 72)));
      expect(found.letters).toBeGreaterThanOrEqual(mm(25.4 * (6 / 72)));
      expect(found.high).toBeGreaterThanOrEqual(mm(4.5));
      expect(found.wide).toBeGreaterThanOrEqual(mm(5));
    },
  );

  test.for(KINDS)('%s: no text of a drawing is cut off or lies on another', async (name) => {
    await open(name);
    const wrong = await page.evaluate(() =>
      [...document.querySelectorAll('svg.plot')].flatMap((svg) => {
        const frame = svg.getBoundingClientRect();
        const texts = [...svg.querySelectorAll('text')].map((e) => ({
          text: e.textContent,
          box: e.getBoundingClientRect(),
        }));
        const cut = texts.filter(
          ({ box }) =>
            box.left < frame.left ||
            box.right > frame.right ||
            box.top < frame.top ||
            box.bottom > frame.bottom,
        );
        const covered = texts.filter(({ box }, i) =>
          texts.some(
            ({ box: other }, j) =>
              j > i &&
              box.left < other.right &&
              other.left < box.right &&
              box.top < other.bottom - 2 &&
              other.top < box.bottom - 2,
          ),
        );
        return [...cut, ...covered].map(({ text }) => text);
      }),
    );
    expect(wrong).toEqual([]);
  });

  test.for(KINDS)('%s: every text reads at 4.5 : 1 or better, in light, dark and print', async (name) => {
    for (const [scheme, media] of [
      ['light', 'screen'],
      ['dark', 'screen'],
      ['dark', 'print'],
    ] as const) {
      await open(name, 800, scheme);
      await page.emulateMedia({ media, colorScheme: scheme });
      const { seen, faint } = await page.evaluate(contrasts);
      expect({ scheme, media, faint }).toEqual({ scheme, media, faint: [] });
      expect(seen).toBeGreaterThan(20);
    }
  });

  test.for(KINDS)('%s: can be read aloud', async (name) => {
    await open(name);
    const found = await page.evaluate(() => {
      const all = (selector: string): Element[] => [...document.querySelectorAll(selector)];
      const named = (e: Element): boolean =>
        (e.getAttribute('aria-labelledby') ?? '')
          .split(' ')
          .every((id) => (document.getElementById(id)?.textContent ?? '') !== '');
      const ids = all('[id]').map((e) => e.id);
      return {
        lang: document.documentElement.lang,
        title: document.title,
        levels: all('h1,h2,h3').map((e) => Number(e.tagName.slice(1))),
        main: all('main').length,
        emptyHeadings: all('h1,h2,h3').filter((e) => e.textContent?.trim() === '').length,
        drawings: all('svg').filter((e) => e.getAttribute('aria-hidden') !== 'true' && !named(e)).length,
        headless: all('table').filter((e) => e.querySelector('caption') === null).length,
        unscoped: all('th').filter((e) => !e.hasAttribute('scope')).length,
        rowless: all('tbody tr').filter((e) => e.querySelector('th[scope=row]') === null).length,
        sameIds: ids.length - new Set(ids).size,
      };
    });
    expect(found).toMatchObject({
      lang: 'en',
      title: expect.stringMatching(/^Pit sheet: ./) as string,
      main: 1,
      emptyHeadings: 0,
      drawings: 0,
      headless: 0,
      unscoped: 0,
      rowless: 0,
      sameIds: 0,
    });
    expect(found.levels.filter((level) => level === 1)).toHaveLength(1);
    // No level is skipped on the way down.
    found.levels.forEach((level, i) => expect(level).toBeLessThanOrEqual((found.levels[i - 1] ?? 0) + 1));
  });

  test('follows light and dark, and prints dark on white whichever is set', async () => {
    const grounds = async (scheme: 'light' | 'dark') => {
      await open('fork-packs-down', 800, scheme);
      const read = () =>
        page.evaluate(() => {
          const card = getComputedStyle(document.querySelector('.card')!);
          return [card.backgroundColor, card.color];
        });
      const screen = await read();
      await page.emulateMedia({ media: 'print' });
      const print = await read();
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
    await open('hostile', 800);
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
  });

  test('would neither run, nor fetch, nor restyle anything even if markup got in', async () => {
    await open('fork-packs-down');
    const ran = await page.evaluate(async () => {
      const add = (tag: string, more: object): void => {
        document.body.append(Object.assign(document.createElement(tag), more));
      };
      add('script', { textContent: 'window.ran = 1' });
      add('img', { src: 'http://127.0.0.1:9/x.png' });
      add('style', { textContent: '.do{display:none}' });
      add('iframe', { src: 'http://127.0.0.1:9/' });
      const fetched = await fetch('http://127.0.0.1:9/').catch(() => 'refused');
      const shown = getComputedStyle(document.querySelector('.do')!).display;
      return { ran: (globalThis as { ran?: number }).ran, fetched, shown };
    });
    expect(ran).toEqual({ ran: undefined, fetched: 'refused', shown: 'block' });
    for (const directive of ['script-src', 'img-src', 'style-src', 'frame-src', 'connect-src'])
      await expect
        .poll(() =>
          heard.some((line) => line.includes('Content Security Policy') && line.includes(directive)),
        )
        .toBe(true);
  });
});

/** Millimetres in CSS pixels. */
function mm(length: number): number {
  return (length / 25.4) * 96;
}

/** Runs in the page. Contrast ratio: W3C, Web Content Accessibility Guidelines 2.2, definitions. */
function contrasts(): { seen: number; faint: string[] } {
  const channels = (colour: string): number[] => (colour.match(/[\d.]+/g) ?? []).map(Number);
  const luminance = (colour: string): number => {
    const [r, g, b] = channels(colour).map((value) => {
      const c = value / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  };
  const groundOf = (e: Element | null): string => {
    // Paper is white where nothing is painted.
    if (e === null) return 'rgb(255, 255, 255)';
    const { backgroundColor } = getComputedStyle(e);
    return channels(backgroundColor)[3] === 0 ? groundOf(e.parentElement) : backgroundColor;
  };
  const faint: string[] = [];
  let seen = 0;
  for (const e of document.querySelectorAll('body *')) {
    const own = [...e.childNodes].filter(
      (n) => n.nodeType === Node.TEXT_NODE && n.textContent?.trim() !== '',
    );
    if (own.length === 0 || e.getClientRects().length === 0) continue;
    seen += 1;
    const style = getComputedStyle(e);
    const colour = e.closest('svg') === null ? style.color : style.fill;
    const [light, dark] = [luminance(colour), luminance(groundOf(e))].sort((a, b) => b - a);
    const ratio = (light! + 0.05) / (dark! + 0.05);
    if (ratio < 4.5) faint.push(`${own[0]!.textContent?.trim().slice(0, 30)}: ${ratio.toFixed(2)}`);
  }
  return { seen, faint };
}

/** Pages of a PDF as this browser writes them: one page object each, not compressed. */
function pageCount(pdf: Buffer): number {
  return pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}
