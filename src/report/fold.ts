/** Commands to be copied from a narrow screen: broken between words, so that a shell takes them whole. */

/** A command at the end of a line, behind a colon or alone; what ends as a sentence does is one about the program. */
const AT_THE_END = /^(|.*?: )(earshot [a-z].*(?<![.?!]))$/s;

/** The words before a command, and the command; undefined where the line ends in none. */
export function commandIn(line: string): { readonly before: string; readonly command: string } | undefined {
  const [, before, command] = AT_THE_END.exec(line) ?? [];
  return before === undefined || command === undefined ? undefined : { before, command };
}

/** `earshot trial plan --bike hazel \` and so on; a word longer than the line stays whole. @param lead of every line */
export function foldCommand(command: string, width: number, lead = '  '): string {
  if (lead.length + command.length <= width) return lead + command;
  const lines: string[] = [];
  let line = lead;
  for (const word of words(command)) {
    const longer = line.trim() === '' ? line + word : `${line} ${word}`;
    if (longer.length > width - BROKEN.length && line.trim() !== '') {
      lines.push(line + BROKEN);
      line = `${lead}  ${word}`;
    } else line = longer;
  }
  return [...lines, line].join('\n');
}

const BROKEN = ' \\';

/** As a shell tells them apart. */
function words(command: string): string[] {
  return command.match(/(?:'[^']*'|"[^"]*"|\\.|[^\s'"\\])+/g) ?? [command];
}
