/** HTML by template: every value put in is escaped, unless it is itself made by the template. */

const MARK = Symbol('markup');

/** HTML that is safe to put into HTML. Only `html` makes it. */
export interface Markup {
  readonly [MARK]: string;
}

type Part = Markup | string | number | null | undefined | false | readonly Part[];

/**
 * @returns markup of the literal parts as they stand, without their indentation, and of the values escaped; lists are
 *   joined, nothing is nothing
 */
export function html(literal: TemplateStringsArray, ...values: readonly Part[]): Markup {
  const pieces = literal.map((piece) => piece.replace(/\n\s+/g, '\n'));
  return { [MARK]: pieces.reduce((text, piece, i) => text + shown(values[i - 1]) + piece) };
}

export function markupText(markup: Markup): string {
  return markup[MARK];
}

/** The style sheet stands in the page as it is: escaping is not known inside a style element. */
export function styleElement(css: string): Markup {
  if (/<\/|<!--/.test(css)) throw new RangeError('a style sheet cannot hold a closing tag');
  return { [MARK]: `<style>${css}</style>` };
}

function shown(part: Part): string {
  if (part === null || part === undefined || part === false) return '';
  if (typeof part === 'string') return escapeHtml(part);
  if (typeof part === 'number') return String(part);
  return MARK in part ? part[MARK] : part.map(shown).join('');
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text → HTML text or attribute value between quotes. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => ENTITIES[sign]!);
}
