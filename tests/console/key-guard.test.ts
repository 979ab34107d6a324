import { describe, expect, it } from 'vitest';
import { keyGuard, type Mode } from '../../src/console/key-guard.ts';
import { PASTE, pieces } from '../../src/console/keys.ts';

/** Chunks at their times, in milliseconds after the prompt appeared; what the prompt gets. A prompt ends with the first answer. */
function heard(
  mode: Mode,
  chunks: readonly (readonly [at: number, chunk: string])[],
  before: readonly (readonly [at: number, chunk: string])[] = [],
): string[] {
  const guard = keyGuard();
  const got: string[] = [];
  for (const [at, chunk] of before) guard.hear(chunk, at);
  got.push(...guard.open(mode, 0));
  for (const [at, chunk] of [...chunks, [1e6, ''] as const]) {
    if (guard.due !== undefined && guard.due <= at) got.push(...guard.take());
    if (chunk !== '') got.push(...guard.hear(chunk, at));
  }
  return got;
}

/** A key held down: pressed, a pause, and then again and again. */
const held = (key: string, from: number, first: number, every: number, count: number): [number, string][] => [
  [from, key],
  ...Array.from({ length: count }, (_, i): [number, string] => [from + first + i * every, key]),
];

describe('a prompt answered by single keys', () => {
  it.each([
    ['a key after the question was read', [[900, '2']], ['2']],
    [
      'two keys one after the other',
      [
        [900, '1'],
        [1050, '2'],
      ],
      ['1', '2'],
    ],
    ['a key sooner than anybody reads', [[20, '1']], []],
    ['return and a line feed alike', [[900, '\n']], ['\r']],
    [
      'the same key again, deliberately',
      [
        [900, '1'],
        [1900, '1'],
      ],
      ['1', '1'],
    ],
    [
      'a key, and another before it was sure that the first is not held',
      [
        [900, '1'],
        [1900, '1'],
        [2050, '2'],
      ],
      ['1', '1', '2'],
    ],
    ['prose in one piece', [[900, 'The fork packs down, 1 or 2\n']], []],
    [
      'of prose in pieces at most words, which answer nothing',
      [
        [900, 'T'],
        [903, 'he f'],
        [905, '1'],
        [908, '\r'],
        [911, '2'],
      ],
      [' he f'],
    ],
    ['a marked paste', [[900, `${PASTE.begin}1${PASTE.end}`]], []],
    [
      'a word in one piece, as words that answer nothing without a Return of their own',
      [[900, 'rear\r']],
      [' rear'],
    ],
    ['prose in one piece', [[900, 'It kicks. Then: 2']], []],
    ['a letter held down', [[900, 'bbbb']], []],
    [
      'arrows, also held down',
      [
        [900, '\u001b[B'],
        [930, '\u001b[B'],
        [931, '\u001b[B\u001b[A'],
      ],
      ['\u001b[B', '\u001b[B', '\u001b[B', '\u001b[A'],
    ],
    ['Ctrl-C, whenever', [[1, '\u0003']], ['\u0003']],
    ['Ctrl-C behind other keys', [[900, '11\u0003']], ['\u0003']],
  ] as [string, [number, string][], string[]][])('%s', (_, chunks, got) => {
    expect(heard('choice', chunks)).toEqual(got);
  });
  it.each(['\r', '1'])('takes the first press of %j held down, and no repeat of it', (key) => {
    expect(heard('choice', held(key, 900, 500, 33, 60))).toEqual([key]);
    // As the slowest keyboards do, and after the longest pause before the first repeat.
    expect(heard('choice', held(key, 900, 1000, 110, 20))).toEqual([key]);
  });
  it.each([[250], [500], [660]])(
    'takes nothing of a key held down since the prompt before, first repeated after %i ms',
    (first) => {
      for (const since of [-600, -300, -30]) {
        const [pressed, ...repeats] = held('1', since, first, 33, 60);
        const at = (now: number) => repeats.filter(([when]) => when >= now);
        expect(heard('choice', at(0), [pressed!, ...repeats.filter(([when]) => when < 0)])).toEqual([]);
      }
    },
  );
  it('takes a key again once it was let go', () => {
    expect(heard('choice', [...held('1', -100, 500, 33, 20), [2500, '1']], [])).toEqual(['1']);
  });
});

describe('a prompt for a line', () => {
  it.each([
    [
      'letters as they come, and return',
      [
        [300, 'i'],
        [302, 't'],
        [340, '\r'],
      ],
      ['i', 't', '\r'],
    ],
    ['return alone, after the question was read', [[700, '\r']], ['\r']],
    [
      'a paste as one text without its line ends',
      [
        [300, 'it\nkicks\r\n'],
        [900, '\r'],
      ],
      ['it kicks', '\r'],
    ],
    [
      'a marked paste, and no key in it',
      [
        [300, `${PASTE.begin}it\r\u001b[A\u0003kicks\n${PASTE.end}`],
        [900, '\r'],
      ],
      ['it kicks', '\r'],
    ],
    [
      'the last line end of a paste in pieces',
      [
        [300, 'it\nkicks'],
        [304, '\n'],
        [900, '\r'],
      ],
      ['it kicks', '\r'],
    ],
    ['a paste of nothing', [[300, '\n\n\n']], []],
    ['a paste that came before the prompt', [[5, 'it kicks\n']], []],
    [
      'rubbing out',
      [
        [300, 'a'],
        [400, '\u007f'],
        [410, '\u007f\u007f'],
      ],
      ['a', '\u007f', '\u007f', '\u007f'],
    ],
  ] as [string, [number, string][], string[]][])('%s', (_, chunks, got) => {
    expect(heard('text', chunks)).toEqual(got);
  });
  it('takes nothing of a return held down since the prompt before', () => {
    expect(heard('text', held('\r', -100, 500, 33, 60).slice(1), [[-100, '\r']])).toEqual([]);
  });
});

it('hears nothing while no prompt stands there', () => {
  const guard = keyGuard();
  expect(guard.hear('1', 5)).toEqual([]);
  guard.open('choice', 10);
  guard.hear('1', 900);
  guard.shut();
  expect(guard.due).toBeUndefined();
  expect(guard.take()).toEqual([]);
});

describe('a marked paste that comes in pieces', () => {
  it('is put together, with what stands around it kept apart', () => {
    const split = pieces();
    expect(split(`a${PASTE.begin}it `)).toEqual(['a']);
    expect(split(`kicks${PASTE.end.slice(0, 3)}`)).toEqual([]);
    expect(split(`${PASTE.end.slice(3)}b`)).toEqual([`${PASTE.begin}it kicks${PASTE.end}`, 'b']);
    expect(split('c')).toEqual(['c']);
  });
  it('does not lock in whoever wants out when its end is lost', () => {
    const split = pieces();
    split(`${PASTE.begin}it kicks`);
    expect(split('\u0003')).toEqual(['\u0003']);
    expect(split('1')).toEqual(['1']);
  });
});

describe('a prompt that listens', () => {
  it.each([
    ['a number once it is sure that it is not held', [[900, '2']], ['2']],
    ['a number that is held down once', held('1', 900, 300, 40, 20), ['1']],
    [
      'letters at once, and then numbers and return as part of the text',
      [
        [900, 'i'],
        [950, 't'],
        [1200, ' '],
        [1300, '2'],
        [1900, '\r'],
      ],
      ['i', 't', ' ', '2', '\r'],
    ],
    [
      'a paste as words, also one that begins with a number',
      [[900, '26 psi is too hard\n']],
      [' 26 psi is too hard'],
    ],
    [
      'letters sooner than anybody reads, and no number',
      [
        [10, '1'],
        [20, 'i'],
        [60, 't'],
      ],
      [' i', 't'],
    ],
    ['nothing of return alone before it was read', [[20, '\r']], []],
  ] as [string, [number, string][], string[]][])('takes %s', (_, chunks, expected) => {
    expect(heard('listen', chunks)).toEqual(expected);
  });
  it('begins with the letters typed while the program started, but answers nothing by them', () => {
    const before: [number, string][] = [
      [-900, 'it '],
      [-800, 'b'],
      [-700, 'ucks\r'],
    ];
    expect(heard('listen', [], before)).toEqual([' it bucks ']);
    expect(
      heard(
        'listen',
        [],
        [
          [-900, '1'],
          [-500, '\r'],
        ],
      ),
    ).toEqual([]);
    expect(heard('choice', [], before)).toEqual([]);
  });
});

describe('Return behind a digit that answered already', () => {
  /** What gets through of Return this long after the next question stands. */
  const after = (key: string, later: number): readonly string[] => {
    const guard = keyGuard();
    guard.open('choice', 0);
    guard.hear(key, 900);
    guard.take();
    guard.shut();
    guard.open('choice', 1000);
    const at = 1000 + later;
    return [...guard.hear('\r', at), ...guard.take()];
  };
  it('answers nothing of the next question, and does once that stood a while', () => {
    expect(after('1', 500)).toEqual([]);
    expect(after('1', 2000)).toEqual(['\r']);
    // Whoever chose by Return goes on by Return.
    expect(after('\r', 500)).toEqual(['\r']);
  });
  it('is no empty line of a text that is asked for next, and is behind words of it', () => {
    const asked = (...keys: [number, string][]): readonly string[] => {
      const guard = keyGuard();
      guard.open('choice', 0);
      guard.hear('1', 900);
      guard.take();
      guard.shut();
      guard.open('text', 1000);
      return keys.flatMap(([at, key]) => [...guard.hear(key, at), ...guard.take()]);
    };
    expect(asked([1500, '\r'])).toEqual([]);
    expect(asked([1500, '\r'], [2000, '\r'])).toEqual(['\r']);
    expect(asked([1400, '2'], [1600, '\r'])).toEqual(['2', '\r']);
  });
  it('is taken when it is pressed again', () => {
    const guard = keyGuard();
    guard.open('choice', 0);
    guard.hear('1', 900);
    guard.take();
    guard.open('choice', 1000);
    expect([...guard.hear('\r', 1400), ...guard.take()]).toEqual([]);
    expect([...guard.hear('\r', 1900), ...guard.take()]).toEqual(['\r']);
  });
});

describe('a key right behind the one that goes back', () => {
  /** What the prompt gets that is gone back to: `b` at 900 ms, gone at 925, and the next one stands at 960. */
  const behind = (key: string, at: number, known = true): readonly string[] => {
    const guard = keyGuard();
    guard.open('choice', 0);
    guard.hear('b', 900);
    guard.take();
    guard.shut(known);
    // The prompter says so once more.
    guard.shut();
    const soon = at < 960 ? guard.hear(key, at) : [];
    const opened = guard.open('choice', 960);
    return [...soon, ...opened, ...(at < 960 ? [] : guard.hear(key, at)), ...guard.take()];
  };
  it.each([
    ['before it stands there', 940],
    ['and before anybody reads it', 1000],
  ])('is meant for what was read before: %s', (_, at) => {
    expect(behind('2', at)).toEqual(['2']);
    expect(behind('2', at, false)).toEqual([]);
  });
  it('is none where it is held down, nor a Return', () => {
    expect(behind('b', 940)).toEqual([]);
    expect(behind('b', 1000)).toEqual([]);
    expect(behind('\r', 940)).toEqual([]);
  });
  it('is kept where the letter waited for it', () => {
    const guard = keyGuard();
    guard.open('choice', 0);
    guard.shut(true);
    guard.keep('2');
    expect(guard.open('choice', 1000)).toEqual(['2']);
    guard.shut();
    guard.keep('2');
    expect(guard.open('choice', 2000)).toEqual([]);
  });
});

describe('a prompt that takes a number', () => {
  it.each([
    [
      'the same digit twice, faster than a held key',
      [
        [900, '3'],
        [1000, '3'],
        [1100, '%'],
        [1200, '\r'],
      ],
      ['3', '3', '%', '\r'],
    ],
    ['a number in one piece', [[900, '26/60 mm']], ['26/60 mm']],
    ['a number that is pasted', [[900, `${PASTE.begin}26/60 mm${PASTE.end}`]], ['26/60 mm']],
    ['words in one piece, whose letters are no keys', [[900, 'on target']], [' on target']],
    ['a letter, once it is sure that it is not held', [[900, 'c']], ['c']],
    ['a letter that is held down, once', held('n', 900, 500, 30, 20), ['n']],
    ['a digit sooner than anybody reads', [[20, '4']], []],
  ] as const)('gets %s', (_, chunks, keys) => {
    expect(heard('number', chunks)).toEqual(keys);
  });
});
