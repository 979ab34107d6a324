import { expect, it } from 'vitest';
import { versionText } from '../../src/workspace/rules/built-in.ts';
import { VERSION } from '../../src/host/root.ts';
import { earshot } from '../support/io.ts';

it('prints the version of the program and of the rules that results name, from either spelling', async () => {
  const { out, code } = await earshot(['--version']);
  expect(code).toBe(0);
  expect(out).toBe((await earshot(['-V'])).out);
  expect(out).toBe(`${versionText()}\n`);
  const [program, rules] = out.split('\n');
  expect(program).toBe(`earshot ${VERSION}`);
  // The same rules as every result names them.
  const result = await earshot(['diagnose', '-', '--format', 'ndjson'], { stdin: '{"case":1,"id":"a"}' });
  const named = (JSON.parse(result.out) as { rules: { name: string; version: string; digest: string } })
    .rules;
  expect(rules).toMatch(
    new RegExp(
      `^rules ${named.name} ${named.version}, digest ${named.digest.slice(0, 12)}(, edited since the program was built)?$`,
    ),
  );
});
