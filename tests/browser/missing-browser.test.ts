import { expect, test } from 'vitest';
import { missingBrowser } from './chromium.ts';

test('a missing browser fails on a CI machine, is told elsewhere, and may be waived', () => {
  expect(missingBrowser({}, true)).toBeUndefined();
  expect(missingBrowser({ CI: 'true' }, true)).toBeUndefined();
  expect(missingBrowser({}, false)).toMatchObject({ fails: false });
  expect(missingBrowser({ CI: 'true' }, false)).toMatchObject({ fails: true });
  expect(missingBrowser({ CI: 'true' }, false)?.says).toContain('apt-get install chromium');
  expect(missingBrowser({ CI: 'true', EARSHOT_NO_BROWSER: '1' }, false)).toMatchObject({ fails: false });
});
