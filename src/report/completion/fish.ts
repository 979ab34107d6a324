/** The completion script for fish. */
import { placed, type CompletionCommand, type Placed, type Takes } from './completion.ts';

export function fishCompletion(program: CompletionCommand): string {
  const me = program.name;
  const all = placed(program);
  const paths = all.map(({ path }) => path).filter((path) => path !== '');
  return `# Completion of ${me} for fish. Load it with: ${me} completion fish | source
function __${me}_at
    set -l path ''
    for word in (commandline -opc)[2..-1]
        set -l next (string trim -- "$path $word")
        if contains -- $next ${paths.map(quoted).join(' ')}
            set path $next
        end
    end
    test "$path" = "$argv[1]"
end
complete -c ${me} -f
${all.flatMap(one).join('\n')}
`;

  function one({ path, command }: Placed): string[] {
    const at = `complete -c ${me} -n ${quoted(`__${me}_at ${quoted(path)}`)}`;
    return [
      ...command.commands.map((sub) => `${at} -a ${quoted(sub.name)} -d ${quoted(sub.about)}`),
      ...command.options.map((o) => {
        const names = o.names.map((name) =>
          name.startsWith('--') ? `-l ${name.slice(2)}` : `-s ${name.slice(1)}`,
        );
        // Exclusive: its value alone, no files beside it.
        const value = o.takes === null || o.optional ? [] : [o.takes.kind === 'file' ? '-r' : '-x'];
        const offered = o.takes === null ? [] : offer(o.takes);
        return [at, ...names, ...value, ...offered, `-d ${quoted(o.about)}`].join(' ');
      }),
      ...command.args.flatMap(({ takes }) => {
        const offered = offer(takes);
        return offered.length === 0 ? [] : [[at, ...offered].join(' ')];
      }),
    ];
  }
}

function offer(takes: Takes): string[] {
  if (takes.kind === 'choice') return [`-a ${quoted(takes.choices.join(' '))}`];
  if (takes.kind === 'file') return ['-F'];
  return takes.kind === 'folder' ? [`-a ${quoted('(__fish_complete_directories)')}`] : [];
}

/** fish knows two escapes inside single quotes. */
function quoted(text: string): string {
  return `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
}
