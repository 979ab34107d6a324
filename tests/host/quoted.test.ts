import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { quoted } from '../../src/host/quoted.ts';

it.each(['bike.yaml', "the rider's bike.yaml", 'a;b', '$HOME', 'two\nlines', "''", '-x'])(
  'a printed command names %j as the shell takes it',
  (text) => {
    const { stdout } = spawnSync('sh', ['-c', `printf %s ${quoted(text).replace(/^-/, './-')}`], {
      encoding: 'utf8',
    });
    expect(stdout.replace(/^\.\/-/, '-')).toBe(text);
  },
);
