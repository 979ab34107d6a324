/** The completion script for zsh, to be sourced or put on the fpath as `_earshot`. */
import {
  placed,
  quoted,
  type CompletionCommand,
  type CompletionOption,
  type Placed,
  type Takes,
} from './completion.ts';

export function zshCompletion(program: CompletionCommand): string {
  const me = program.name;
  const functionOf = (path: string): string => `_${[me, ...path.split(' ').filter(Boolean)].join('_')}`;
  return `#compdef ${me}
# Completion of ${me} for zsh. Load it with: source <(${me} completion zsh)
${placed(program).map(one).join('\n')}
if [[ "\${funcstack[1]}" == ${functionOf('')} ]]; then
  ${functionOf('')} "$@"
else
  compdef ${functionOf('')} ${me}
fi
`;

  function one({ path, command }: Placed): string {
    const specs = command.options.map(option);
    if (command.commands.length === 0) {
      command.args.forEach(({ name, takes }, n) => {
        const place = command.variadic && n === command.args.length - 1 ? '*' : String(n + 1);
        specs.push(quoted(`${place}:${plain(name)}:${action(takes)}`));
      });
      return `${functionOf(path)}() {\n  _arguments -s \\\n    ${specs.join(' \\\n    ')}\n}`;
    }
    const subs = command.commands.map((c) => quoted(`${c.name}:${plain(c.about)}`));
    const cases = command.commands.map(
      (c) => `        ${c.name}) ${functionOf(path === '' ? c.name : `${path} ${c.name}`)} ;;`,
    );
    return `${functionOf(path)}() {
  local curcontext="$curcontext" state line
  local -a commands
  typeset -A opt_args
  _arguments -C -s \\
    ${[...specs, "'1:command:->command'", "'*::rest:->rest'"].join(' \\\n    ')}
  case $state in
    command)
      commands=(
        ${subs.join('\n        ')}
      )
      _describe command commands
      ;;
    rest)
      case $line[1] in
${cases.join('\n')}
      esac
      ;;
  esac
}`;
  }
}

function option({ names, about, takes, optional }: CompletionOption): string {
  const value = takes === null ? '' : `${optional ? '::' : ':'}value:${action(takes)}`;
  const rest = quoted(`[${plain(about)}]${value}`);
  // Only one spelling of an option is offered once another stands on the line.
  return names.length === 1
    ? `${quoted(`*${names[0]}`)}${rest}`
    : `{${names.map((n) => quoted(`*${n}`)).join(',')}}${rest}`;
}

function action(takes: Takes): string {
  if (takes.kind === 'choice') return `(${takes.choices.join(' ')})`;
  if (takes.kind === 'file') return '_files';
  return takes.kind === 'folder' ? '_files -/' : ' ';
}

/** Signs with a meaning of their own inside a spec. */
function plain(text: string): string {
  return text.replace(/[\\[\]:]/g, (sign) => `\\${sign}`);
}
