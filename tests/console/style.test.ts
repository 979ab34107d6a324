import { describe, expect, it } from 'vitest';
import { showsUnicode } from '../../src/console/shows-unicode.ts';
import { styleFor, wantsColor } from '../../src/console/style.ts';

const screen = { isTty: true, width: 80, env: {}, color: 'auto' } as const;

describe('colour', () => {
  it.each([
    ['on a terminal', screen, true],
    ['not in a pipe', { ...screen, isTty: false }, false],
    ['not with NO_COLOR', { ...screen, env: { NO_COLOR: '1' } }, false],
    ['as without it when NO_COLOR is empty', { ...screen, env: { NO_COLOR: '' } }, true],
    ['not on a dumb terminal', { ...screen, env: { TERM: 'dumb' } }, false],
    ['in a pipe with FORCE_COLOR', { ...screen, isTty: false, env: { FORCE_COLOR: '1' } }, true],
    [
      'with --color always, whatever else',
      { ...screen, isTty: false, env: { NO_COLOR: '1' }, color: 'always' },
      true,
    ],
    ['not with --color never', { ...screen, color: 'never' }, false],
  ] as const)('%s', (_, given, expected) => expect(wantsColor(given)).toBe(expected));
});

describe('Unicode', () => {
  it.each([
    ['in a UTF-8 locale', { LANG: 'C.UTF-8' }, true],
    ['where no locale is set', {}, true],
    ['not in the C locale', { LANG: 'C' }, false],
    ['LC_ALL goes before LANG', { LC_ALL: 'C', LANG: 'C.UTF-8' }, false],
    ['LC_CTYPE goes before LANG', { LC_CTYPE: 'de_DE.utf8', LANG: 'C' }, true],
    ['not on the Linux console', { TERM: 'linux', LANG: 'C.UTF-8' }, false],
    ['not on a dumb terminal', { TERM: 'dumb', LANG: 'C.UTF-8' }, false],
  ])('%s', (_, env, expected) => expect(showsUnicode(env, true)).toBe(expected));
  it('always in a pipe or file', () => expect(showsUnicode({ LANG: 'C' }, false)).toBe(true));
});

describe('the style', () => {
  it('marks nothing without colour', () => {
    const style = styleFor({ ...screen, color: 'never' });
    expect([style.strong('a'), style.quiet('a'), style.good('a'), style.warn('a')]).toEqual([
      'a',
      'a',
      'a',
      'a',
    ]);
  });
  it.each([
    [20, 40],
    [64, 64],
    [200, 100],
  ])('at %i columns is %i wide', (width, expected) =>
    expect(styleFor({ ...screen, width }).width).toBe(expected),
  );
});
