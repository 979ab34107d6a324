import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { escapeHtml, html, markupText, styleElement } from '../../src/report/pit-sheet/markup.ts';

const decode = (text: string): string =>
  text.replace(
    /&(amp|lt|gt|quot|#39);/g,
    (_, name: string) => ({ amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" })[name]!,
  );

test('whatever a text holds, it stays text and can be read back', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), (text) => {
      const page = markupText(html`<p title="${text}">${text}</p>`);
      const inside = /^<p title="([^"<>']*)">([^"<>']*)<\/p>$/s.exec(page);
      expect(inside?.slice(1).map(decode)).toEqual([text, text]);
    }),
  );
});

test('markup from the template is put in as it is, lists are joined, nothing is nothing', () => {
  const item = (text: string) => html`<li>${text}</li>`;
  const list = html`<ul class="${false}">
    ${['a', '<b>'].map(item)}${null}${undefined}${[]}${0}
  </ul>`;
  expect(markupText(list)).toBe('<ul class="">\n<li>a</li><li>&lt;b&gt;</li>0\n</ul>');
});

test('an object that only looks like markup is escaped or refused, never put in', () => {
  const forged = JSON.parse('{"markup":"<script>"}') as string;
  expect(() => markupText(html`<p>${forged}</p>`)).toThrow(TypeError);
});

test('a style sheet that would close its element is refused', () => {
  expect(() => styleElement('a{content:"</style><script>"}')).toThrow(RangeError);
  expect(markupText(styleElement('a{color:red}'))).toBe('<style>a{color:red}</style>');
});

test('the five signs that mean something in HTML are escaped', () => {
  expect(escapeHtml(`<a href="x" id='y'>&`)).toBe('&lt;a href=&quot;x&quot; id=&#39;y&#39;&gt;&amp;');
});
