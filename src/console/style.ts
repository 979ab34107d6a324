/** Colour, if this stream shows any. The only module that imports chalk. */
import { Chalk } from 'chalk';
import { PLAIN, type Style } from '../report/style.ts';
import { showsUnicode } from './shows-unicode.ts';

export interface Screen {
  readonly isTty: boolean;
  readonly width: number;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** --color: always, never, or auto */
  readonly color: 'always' | 'never' | 'auto';
}

/** Whether colour is wanted: the option first, then NO_COLOR (no-color.org) and dumb terminals, then the stream. */
export function wantsColor({ isTty, env, color }: Screen): boolean {
  if (color !== 'auto') return color === 'always';
  if ((env['NO_COLOR'] ?? '') !== '' || env['TERM'] === 'dumb') return false;
  if ((env['FORCE_COLOR'] ?? '') !== '' && env['FORCE_COLOR'] !== '0') return true;
  return isTty;
}

export function styleFor(screen: Screen): Style {
  const unicode = showsUnicode(screen.env, screen.isTty);
  const width = screen.isTty ? Math.min(100, Math.max(40, screen.width)) : 80;
  if (!wantsColor(screen)) return { ...PLAIN, width, unicode };
  const chalk = new Chalk({ level: 1 });
  return { strong: chalk.bold, quiet: chalk.dim, good: chalk.green, warn: chalk.yellow, width, unicode };
}
